package org.sideport.media.dicom;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * Writes a DICOM file around a video: 128 bytes, DICM, group 2 in explicit VR little endian (PS3.10, 7.1), the data set in
 * the same, the video in items behind an empty Basic Offset Table (PS3.5, A.4).
 */
public final class DicomFile {

    public static final String H264 = "1.2.840.10008.1.2.4.102";
    public static final String MPEG2 = "1.2.840.10008.1.2.4.100";
    public static final String HEVC = "1.2.840.10008.1.2.4.107";
    public static final String MICROSCOPIC = "1.2.840.10008.5.1.4.1.1.77.1.2.1";

    /** What stands in the patient's attributes, and must never come out. */
    public static final List<String> SECRETS =
            List.of("SECRET^PATIENT", "SECRET-ID-7781", "19520304", "SECRET-CLINIC", "SECRET^OPERATOR", "SECRET-PRIV");

    private String syntax = H264;
    private String sopClass = MICROSCOPIC;
    private String frames = "";
    private String cineRate = "";
    private String frameTime = "";
    private int fragments = 1;
    private boolean patient = true;
    private boolean nested = true;
    private boolean offsetTable;
    private boolean defined;

    public static DicomFile of(String syntax) {
        DicomFile file = new DicomFile();
        file.syntax = syntax;
        return file;
    }

    public DicomFile sopClass(String uid) {
        sopClass = uid;
        return this;
    }

    public DicomFile timing(String number, String rate, String milliseconds) {
        frames = number;
        cineRate = rate;
        frameTime = milliseconds;
        return this;
    }

    public DicomFile fragments(int number) {
        fragments = number;
        return this;
    }

    public DicomFile withoutPatient() {
        patient = false;
        return this;
    }

    public DicomFile withOffsetTable() {
        offsetTable = true;
        return this;
    }

    /** Pixel data with a length of its own, as uncompressed pictures have. */
    public DicomFile notEncapsulated() {
        defined = true;
        return this;
    }

    public Path write(Path target, byte[] video) throws IOException {
        return Files.write(target, bytes(video));
    }

    public byte[] bytes(byte[] video) {
        Out meta = new Out();
        meta.longValue(0x0002, 0x0001, "OB", new byte[] {0, 1});
        meta.text(0x0002, 0x0002, "UI", sopClass);
        meta.text(0x0002, 0x0003, "UI", "1.2.3.4");
        meta.text(0x0002, 0x0010, "UI", syntax);
        Out out = new Out();
        out.raw(new byte[128]);
        out.raw("DICM".getBytes(StandardCharsets.ISO_8859_1));
        out.head(0x0002, 0x0000, "UL", 4);
        out.int32(meta.size());
        out.raw(meta.bytes());
        out.text(0x0008, 0x0016, "UI", sopClass);
        if (patient) {
            out.text(0x0008, 0x0020, "DA", SECRETS.get(2));
            out.text(0x0008, 0x0080, "LO", SECRETS.get(3));
            out.text(0x0008, 0x1070, "PN", SECRETS.get(4));
        }
        if (nested) {
            // a sequence of undefined length with an item of undefined length that holds pixel data of its own
            out.longHead(0x0008, 0x1140, "SQ", -1);
            out.tag(0xFFFE, 0xE000);
            out.int32(-1);
            out.longValue(0x7FE0, 0x0010, "OB", new byte[] {1, 2, 3, 4});
            out.tag(0xFFFE, 0xE00D);
            out.int32(0);
            out.tag(0xFFFE, 0xE0DD);
            out.int32(0);
        }
        if (patient) {
            out.text(0x0009, 0x0010, "LO", SECRETS.get(5));
            out.text(0x0010, 0x0010, "PN", SECRETS.get(0));
            out.text(0x0010, 0x0020, "LO", SECRETS.get(1));
        }
        optional(out, 0x0018, 0x0040, "IS", cineRate);
        optional(out, 0x0018, 0x1063, "DS", frameTime);
        optional(out, 0x0028, 0x0008, "IS", frames);
        if (defined) {
            out.longValue(0x7FE0, 0x0010, "OW", video);
            return out.bytes();
        }
        out.longHead(0x7FE0, 0x0010, "OB", -1);
        out.tag(0xFFFE, 0xE000);
        out.int32(offsetTable ? 4 : 0);
        if (offsetTable) {
            out.int32(0);
        }
        for (byte[] part : parts(video)) {
            out.tag(0xFFFE, 0xE000);
            out.int32(part.length + part.length % 2);
            out.raw(part);
            out.raw(new byte[part.length % 2]);
        }
        out.tag(0xFFFE, 0xE0DD);
        out.int32(0);
        return out.bytes();
    }

    /** Parts of even length and different sizes, but for the last. */
    private List<byte[]> parts(byte[] video) {
        List<byte[]> parts = new ArrayList<>();
        int from = 0;
        for (int i = 1; i <= fragments; i++) {
            int to = i == fragments ? video.length : (int) ((long) video.length * i * i / (fragments * fragments)) & ~1;
            parts.add(java.util.Arrays.copyOfRange(video, from, to));
            from = to;
        }
        return parts;
    }

    private static void optional(Out out, int group, int element, String vr, String value) {
        if (!value.isEmpty()) {
            out.text(group, element, vr, value);
        }
    }

    private static final class Out {
        private final ByteArrayOutputStream out = new ByteArrayOutputStream();

        int size() {
            return out.size();
        }

        byte[] bytes() {
            return out.toByteArray();
        }

        void raw(byte[] bytes) {
            out.writeBytes(bytes);
        }

        void int16(int value) {
            out.write(value);
            out.write(value >> 8);
        }

        void int32(int value) {
            int16(value);
            int16(value >> 16);
        }

        void tag(int group, int element) {
            int16(group);
            int16(element);
        }

        void head(int group, int element, String vr, int length) {
            tag(group, element);
            raw(vr.getBytes(StandardCharsets.ISO_8859_1));
            int16(length);
        }

        void longHead(int group, int element, String vr, int length) {
            tag(group, element);
            raw(vr.getBytes(StandardCharsets.ISO_8859_1));
            int16(0);
            int32(length);
        }

        void longValue(int group, int element, String vr, byte[] value) {
            longHead(group, element, vr, value.length + value.length % 2);
            raw(value);
            raw(new byte[value.length % 2]);
        }

        void text(int group, int element, String vr, String value) {
            String even = value.length() % 2 == 0 ? value : value + (vr.equals("UI") ? "\0" : " ");
            head(group, element, vr, even.length());
            raw(even.getBytes(StandardCharsets.ISO_8859_1));
        }
    }
}
