package org.sideport.report.workbook;

import java.util.List;
import org.apache.poi.ss.usermodel.ConditionalFormattingRule;
import org.apache.poi.ss.usermodel.ConditionalFormattingThreshold.RangeType;
import org.apache.poi.ss.usermodel.DataBarFormatting;
import org.apache.poi.ss.usermodel.DataValidation;
import org.apache.poi.ss.usermodel.DataValidationConstraint;
import org.apache.poi.ss.usermodel.DataValidationConstraint.OperatorType;
import org.apache.poi.ss.usermodel.DataValidationHelper;
import org.apache.poi.ss.usermodel.Name;
import org.apache.poi.ss.usermodel.Sheet;
import org.apache.poi.ss.usermodel.SheetConditionalFormatting;
import org.apache.poi.ss.util.CellRangeAddress;
import org.apache.poi.ss.util.CellRangeAddressList;
import org.apache.poi.ss.util.CellReference;
import org.apache.poi.xssf.usermodel.XSSFColor;
import org.sideport.report.workbook.Column.Input;

/** Names of ranges, grey bars, and limits of what may be typed in. */
final class SheetHelps {

    private static final XSSFColor GREY = new XSSFColor(new byte[] {(byte) 0xB4, (byte) 0xBA, (byte) 0xC2});

    private SheetHelps() {}

    /** @param formulas whether the names that formulas need are made */
    static <R> void add(Sheet sheet, Table<R> table, boolean formulas) {
        List<Column<R>> columns = table.columns();
        int last = Math.max(1, table.rows().size());
        name(sheet, table.code(), new CellRangeAddress(0, table.rows().size(), 0, columns.size() - 1));
        for (int c = 0; c < columns.size(); c++) {
            CellRangeAddress cells = new CellRangeAddress(1, last, c, c);
            String name = columns.get(c).name();
            if (name != null && formulas) {
                name(sheet, name, cells);
            }
            if (columns.get(c).bar()) {
                bars(sheet, cells);
            }
            Input input = columns.get(c).input();
            if (input != null && Double.isFinite(input.most())) {
                validate(sheet, cells, input);
            }
        }
    }

    /** For formulas and for people, in the whole workbook. */
    static void name(Sheet sheet, String name, CellRangeAddress cells) {
        Name made = sheet.getWorkbook().createName();
        made.setNameName(name);
        CellReference from = new CellReference(cells.getFirstRow(), cells.getFirstColumn(), true, true);
        CellReference to = new CellReference(cells.getLastRow(), cells.getLastColumn(), true, true);
        String place = "'" + sheet.getSheetName() + "'!" + from.formatAsString();
        made.setRefersToFormula(cells.getNumberOfCells() == 1 ? place : place + ":" + to.formatAsString());
    }

    /** From 0 to 1 in one grey: how much, never good or bad. */
    private static void bars(Sheet sheet, CellRangeAddress cells) {
        SheetConditionalFormatting formatting = sheet.getSheetConditionalFormatting();
        ConditionalFormattingRule rule = formatting.createConditionalFormattingRule(GREY);
        DataBarFormatting bar = rule.getDataBarFormatting();
        bar.getMinThreshold().setRangeType(RangeType.NUMBER);
        bar.getMinThreshold().setValue(0d);
        bar.getMaxThreshold().setRangeType(RangeType.NUMBER);
        bar.getMaxThreshold().setValue(1d);
        formatting.addConditionalFormatting(new CellRangeAddress[] {cells}, rule);
    }

    static void validate(Sheet sheet, CellRangeAddress cells, Input input) {
        DataValidationHelper helper = sheet.getDataValidationHelper();
        String least = number(input.least());
        String most = number(input.most());
        DataValidationConstraint limits = input.whole()
                ? helper.createIntegerConstraint(OperatorType.BETWEEN, least, most)
                : helper.createDecimalConstraint(OperatorType.BETWEEN, least, most);
        DataValidation validation = helper.createValidation(
                limits,
                new CellRangeAddressList(
                        cells.getFirstRow(), cells.getLastRow(), cells.getFirstColumn(), cells.getLastColumn()));
        validation.setShowErrorBox(true);
        validation.createErrorBox("This cell", input.prompt());
        validation.setShowPromptBox(true);
        validation.createPromptBox("This cell", input.prompt());
        validation.setEmptyCellAllowed(true);
        sheet.addValidationData(validation);
    }

    private static String number(double value) {
        return value == Math.rint(value) ? String.valueOf((long) value) : String.valueOf(value);
    }
}
