package org.sideport.media.track;

import org.jspecify.annotations.Nullable;

/**
 * What was found of the eye in one picture.
 *
 * @param limbus border of cornea and sclera, {@code null} if not found
 * @param pupil {@code null} if not found; never without the limbus
 * @param missing why there is no limbus, {@code null} if there is one
 * @param sharpness mean squared gradient (Tenengrad) of the picture at the size at which it was looked at
 */
public record EyeView(
        @Nullable EyeEdge limbus,
        @Nullable EyeEdge pupil,
        @Nullable Missing missing,
        double sharpness) {

    /** Why no limbus was found. */
    public enum Missing {
        DARK("dark", "the picture is dark"),
        OUT_OF_FOCUS("out_of_focus", "no edge is sharp enough"),
        BEYOND_PICTURE("beyond_picture", "too much of the limbus lies beyond the picture"),
        NO_EYE("no_eye", "nothing looks like a limbus");

        private final String id;
        private final String words;

        Missing(String id, String words) {
            this.id = id;
            this.words = words;
        }

        public String id() {
            return id;
        }

        public String words() {
            return words;
        }
    }

    public EyeView {
        if ((limbus == null) == (missing == null) || (limbus == null && pupil != null)) {
            throw new IllegalArgumentException("either a limbus or a reason why there is none");
        }
    }
}
