package org.sideport.report.exchange;

import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.HexFormat;
import java.util.UUID;
import org.sideport.model.Recording;
import org.sideport.model.Segment;

/** Names for things that tell nothing of a person or a folder. */
final class Digests {

    private Digests() {}

    /**
     * A file by what it holds: an {@code ni} URI (RFC 6920, section 3); by the label and its place among the files where the
     * case is blinded.
     */
    static String source(Annotated from, int segment) {
        Recording recording = from.recording();
        if (recording == null) {
            return "urn:sideport:case:" + from.code();
        }
        Segment one = recording.segments().get(segment);
        return from.blinded() ? "urn:sideport:case:" + from.code() + ":part:" + (segment + 1) : ni(one.sha256());
    }

    static String ni(String sha256) {
        byte[] digest = HexFormat.of().parseHex(sha256);
        return "ni:///sha-256;" + Base64.getUrlEncoder().withoutPadding().encodeToString(digest);
    }

    /** Always the same for the same words (RFC 9562, section 5.3). */
    static String uuid(String... words) {
        return UUID.nameUUIDFromBytes(String.join("\n", words).getBytes(StandardCharsets.UTF_8))
                .toString();
    }

    static String urn(String... words) {
        return "urn:uuid:" + uuid(words);
    }

    /** The text itself if it is a UUID, else one made of it. */
    static String asUuid(String id) {
        return id.matches("[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}") ? id : uuid("sideport", id);
    }
}
