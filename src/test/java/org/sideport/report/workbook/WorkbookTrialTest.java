package org.sideport.report.workbook;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.CellType;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.usermodel.Sheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class WorkbookTrialTest {

    @TempDir
    Path folder;

    /** Else the times of the two could not be compared. */
    @Test
    void bothWriteTheSameCells() throws IOException {
        WorkbookTrial trial = new WorkbookTrial(400);
        Path own = folder.resolve("own.xlsx");
        Path bare = folder.resolve("bare.xlsx");
        trial.own(own);
        WorkbookTrial.bare(trial.cells(), bare);
        try (XSSFWorkbook ours = new XSSFWorkbook(Files.newInputStream(own));
                XSSFWorkbook theirs = new XSSFWorkbook(Files.newInputStream(bare))) {
            List<String> mine = new ArrayList<>();
            for (Sheet sheet : ours) {
                if (!sheet.getSheetName().equals("Read me")
                        && !sheet.getSheetName().equals("Charts")) {
                    mine.add(cells(sheet));
                }
            }
            List<String> others = new ArrayList<>();
            theirs.forEach(sheet -> others.add(cells(sheet)));
            assertThat(mine).isEqualTo(others);
            assertThat(ours.getSheet("Ratings").getLastRowNum()).isEqualTo(400);
        }
    }

    private static String cells(Sheet sheet) {
        StringBuilder all = new StringBuilder();
        for (Row row : sheet) {
            for (Cell cell : row) {
                CellType type =
                        cell.getCellType() == CellType.FORMULA ? cell.getCachedFormulaResultType() : cell.getCellType();
                if (type == CellType.NUMERIC) {
                    all.append(cell.getAddress()).append(cell.getNumericCellValue());
                } else if (!cell.getStringCellValue().isEmpty()) {
                    all.append(cell.getAddress()).append(cell.getStringCellValue());
                }
            }
        }
        return all.toString();
    }
}
