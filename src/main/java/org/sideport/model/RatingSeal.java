package org.sideport.model;

import java.util.List;

/**
 * What a rating was when it was signed.
 *
 * @param form version of the form that was digested, such as {@code sideport-rating-1}
 * @param digest SHA-256 over that form, 64 lower-case hex digits
 * @param rubricSha256 of the rubric's text
 * @param taggingOf code of the annotator whose tags the rating rests on; empty if there were none
 * @param taggingSha256 of those tags; empty if there were none
 * @param recordings digests of the recording's files in their order; empty where there is no recording
 * @param amendsDigest digest of the rating that this one supersedes; empty if it supersedes none
 * @param late true if it was sealed by a later program than the one it was signed with
 */
public record RatingSeal(
        String form,
        String digest,
        String rubricSha256,
        String taggingOf,
        String taggingSha256,
        List<String> recordings,
        String amendsDigest,
        boolean late) {

    public RatingSeal {
        recordings = List.copyOf(recordings);
    }
}
