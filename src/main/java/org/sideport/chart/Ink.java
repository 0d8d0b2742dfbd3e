package org.sideport.chart;

import java.util.List;

/**
 * What a layer is drawn with: a colour, and a dash that tells it apart where colours do not. The colours are those of Okabe
 * & Ito 2008, "Color Universal Design: how to make figures and presentations that are friendly to colorblind people"
 * (jfly.uni-koeln.de/color), chosen so that each stands 3:1 or more against its background (WCAG 2.1, 1.4.11) and all
 * but that of {@link #BEFORE} differ in lightness, so that a print in grey can be read.
 */
public enum Ink {
    /** What the chart is about. Blue; on dark sky blue. */
    MAIN(0x0072B2, 0x56B4E9, List.of()),
    /** What it was before: one thing with {@link #MAIN}, so the same blue, told apart by its dash alone. */
    BEFORE(0x0072B2, 0x56B4E9, List.of(6f, 4f)),
    /** What is fitted to it. Black; on dark yellow. */
    FIT(0x000000, 0xF0E442, List.of()),
    /** Others. Vermillion. */
    OTHERS(0xD55E00, 0xD55E00, List.of(8f, 4f)),
    /** What it is held against. Reddish purple. */
    REFERENCE(0xCC79A7, 0xCC79A7, List.of(2f, 3f));

    private final int onLight;
    private final int onDark;

    @SuppressWarnings("ImmutableEnumChecker") // an unmodifiable list
    private final List<Float> dash;

    Ink(int onLight, int onDark, List<Float> dash) {
        this.onLight = onLight;
        this.onDark = onDark;
        this.dash = dash;
    }

    /** As 0xRRGGBB. */
    public int rgb(Look look) {
        return look == Look.DARK ? onDark : onLight;
    }

    /** Lengths of stroke and gap in turn, in widths of a hair; empty for an unbroken line. */
    public List<Float> dash() {
        return dash;
    }
}
