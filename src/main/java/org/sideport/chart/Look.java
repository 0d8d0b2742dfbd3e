package org.sideport.chart;

/** The ground a chart is drawn on. Files and pages take {@link #LIGHT}. */
public enum Look {
    LIGHT(0xFFFFFF, 0x1F2328, 0xD0D7DE),
    DARK(0x0D1117, 0xE6EDF3, 0x30363D);

    private final int background;
    private final int text;
    private final int grid;

    Look(int background, int text, int grid) {
        this.background = background;
        this.text = text;
        this.grid = grid;
    }

    /** As 0xRRGGBB, like the others. */
    public int background() {
        return background;
    }

    /** Words, axes and ticks. */
    public int text() {
        return text;
    }

    /** Lines that help the eye and mean nothing. */
    public int grid() {
        return grid;
    }
}
