package org.sideport.media.dicom;

import java.util.Locale;

/** Kinds of attributes by which a person may be known. Only that they are filled is ever noted, never with what. */
public enum PatientData {
    PATIENT("patient"),
    PERSONS("physicians and operators"),
    DATES("dates and times"),
    PLACE("institution and station"),
    NUMBERS("study and accession numbers"),
    DEVICE("serial numbers"),
    PRIVATE("the maker's private attributes");

    private final String words;

    PatientData(String words) {
        this.words = words;
    }

    /** For people. */
    public String words() {
        return words;
    }

    /** As written in JSON: lower case. */
    public String id() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** The kind of an attribute that is not empty (PS3.6 chapter 6); {@code null} if it tells of no person. */
    static @org.jspecify.annotations.Nullable PatientData of(int group, int element) {
        if (group % 2 != 0) {
            return PRIVATE;
        }
        if (group == 0x0010) {
            return PATIENT;
        }
        if (group == 0x0008) {
            return switch (element) {
                case 0x0012, 0x0013, 0x0020, 0x0021, 0x0022, 0x0023, 0x002A, 0x0030, 0x0031, 0x0032, 0x0033 -> DATES;
                case 0x0050 -> NUMBERS;
                case 0x0080, 0x0081, 0x0082, 0x1010, 0x1040, 0x1041 -> PLACE;
                case 0x0090, 0x0092, 0x0094, 0x0096, 0x009C, 0x1048, 0x1049, 0x1050, 0x1052, 0x1060, 0x1062, 0x1070 ->
                    PERSONS;
                default -> null;
            };
        }
        if (group == 0x0020 && element == 0x0010) {
            return NUMBERS;
        }
        if (group == 0x0018 && (element == 0x1000 || element == 0x1002)) {
            return DEVICE;
        }
        if (group == 0x0032 || group == 0x0038 || group == 0x0040) {
            return element == 0x0244 || element == 0x0245 || element == 0x0250 ? DATES : NUMBERS;
        }
        return null;
    }
}
