package org.sideport.media.dicom;

import java.util.Set;

/** Transfer syntax UIDs by what can be done with them (PS3.5 chapter 10, PS3.6 table A-1). */
final class TransferSyntax {

    static final String IMPLICIT = "1.2.840.10008.1.2";
    static final String EXPLICIT = "1.2.840.10008.1.2.1";
    static final String DEFLATED = "1.2.840.10008.1.2.1.99";
    static final String BIG_ENDIAN = "1.2.840.10008.1.2.2";

    private static final String COMPRESSED = "1.2.840.10008.1.2.4.";

    /** MPEG-2 main and high level; H.264 4.1, 4.1 BD, 4.2, 4.2 3D, stereo; HEVC Main and Main 10. */
    private static final Set<String> VIDEO = Set.of("100", "101", "102", "103", "104", "105", "106", "107", "108");

    private TransferSyntax() {}

    /** Also the fragmentable forms, whose UIDs end in a further {@code .1}. */
    static boolean isVideo(String uid) {
        if (!uid.startsWith(COMPRESSED)) {
            return false;
        }
        String kind = uid.substring(COMPRESSED.length());
        return VIDEO.contains(kind.endsWith(".1") ? kind.substring(0, kind.length() - 2) : kind);
    }

    /** What stands in the way, in words. */
    static String obstacle(String uid) {
        return switch (uid) {
            case IMPLICIT -> "it holds single uncompressed pictures (implicit VR little endian), not a video stream";
            case EXPLICIT -> "it holds single uncompressed pictures (explicit VR little endian), not a video stream";
            case BIG_ENDIAN -> "it holds single uncompressed pictures (big endian), not a video stream";
            case DEFLATED -> "it is deflated as a whole and holds single pictures, not a video stream";
            default ->
                uid.startsWith(COMPRESSED)
                        ? "its pictures are compressed one by one (transfer syntax " + uid + "), not a video stream"
                        : "its transfer syntax " + uid + " is none of those for video";
        };
    }
}
