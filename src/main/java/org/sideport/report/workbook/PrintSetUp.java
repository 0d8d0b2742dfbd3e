package org.sideport.report.workbook;

import org.apache.poi.ss.usermodel.PrintSetup;
import org.apache.poi.ss.usermodel.Sheet;
import org.sideport.report.Cautions;

/**
 * How sheets are printed: across, as wide as the paper, with caution and page number at the foot.
 *
 * @param made by what and when
 * @param note above the sheet's name; empty for none
 */
record PrintSetUp(String made, String note) {

    /** Letters of this size in points. */
    private static final String SMALL = "&\"" + Styles.FACE + ",Regular\"&8";

    private static final String USUAL = "&\"" + Styles.FACE + ",Regular\"";

    /** @param pages how many pages the columns are spread over */
    void apply(Sheet sheet, int pages) {
        sheet.setFitToPage(true);
        PrintSetup setup = sheet.getPrintSetup();
        setup.setPaperSize(PrintSetup.A4_PAPERSIZE);
        setup.setLandscape(true);
        setup.setFitWidth((short) Math.max(1, pages));
        setup.setFitHeight((short) 0);
        sheet.getHeader().setLeft(USUAL + "&A");
        sheet.getHeader().setRight(SMALL + " " + (note.isEmpty() ? made : note + " · " + made).replace("&", "&&"));
        sheet.getFooter().setLeft(SMALL + " " + Cautions.SHORT);
        sheet.getFooter().setRight(USUAL + "Page &P of &N");
    }
}
