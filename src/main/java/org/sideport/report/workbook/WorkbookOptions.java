package org.sideport.report.workbook;

import org.sideport.model.InputException;

/**
 * How a workbook is written.
 *
 * @param language of the headers, such as {@code de}; English where there are none. Codes stay the same in all
 * @param shared whether it goes to people outside the unit: no single case, mark or tag, small counts masked
 * @param maskBelow counts from 1 up to this are masked in a shared workbook, and what rests on so few
 * @param leftOut how many cases are not in it and why; empty if none is missing
 */
public record WorkbookOptions(String language, boolean shared, int maskBelow, String leftOut) {

    /** Without a word of cases left out. */
    public WorkbookOptions(String language, boolean shared, int maskBelow) {
        this(language, shared, maskBelow, "");
    }

    /** English, for the unit itself. */
    public static final WorkbookOptions USUAL = new WorkbookOptions("en", false, 5);

    /** @throws InputException if nothing would be masked */
    public WorkbookOptions {
        if (shared && maskBelow < 2) {
            throw new InputException("counts below " + maskBelow + " mask nothing", null, "write 2 or more, such as 5");
        }
    }

    boolean masks(int n) {
        return shared && n > 0 && n < maskBelow;
    }
}
