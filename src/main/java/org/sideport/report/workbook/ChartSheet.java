package org.sideport.report.workbook;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.poi.ss.util.CellRangeAddress;
import org.apache.poi.xddf.usermodel.PresetColor;
import org.apache.poi.xddf.usermodel.PresetLineDash;
import org.apache.poi.xddf.usermodel.XDDFColor;
import org.apache.poi.xddf.usermodel.XDDFLineProperties;
import org.apache.poi.xddf.usermodel.XDDFNoFillProperties;
import org.apache.poi.xddf.usermodel.XDDFPresetLineDash;
import org.apache.poi.xddf.usermodel.XDDFShapeProperties;
import org.apache.poi.xddf.usermodel.XDDFSolidFillProperties;
import org.apache.poi.xddf.usermodel.chart.AxisCrossBetween;
import org.apache.poi.xddf.usermodel.chart.AxisCrosses;
import org.apache.poi.xddf.usermodel.chart.AxisPosition;
import org.apache.poi.xddf.usermodel.chart.ChartTypes;
import org.apache.poi.xddf.usermodel.chart.DisplayBlanks;
import org.apache.poi.xddf.usermodel.chart.LegendPosition;
import org.apache.poi.xddf.usermodel.chart.MarkerStyle;
import org.apache.poi.xddf.usermodel.chart.ScatterStyle;
import org.apache.poi.xddf.usermodel.chart.XDDFCategoryAxis;
import org.apache.poi.xddf.usermodel.chart.XDDFChartAxis;
import org.apache.poi.xddf.usermodel.chart.XDDFDataSource;
import org.apache.poi.xddf.usermodel.chart.XDDFDataSourcesFactory;
import org.apache.poi.xddf.usermodel.chart.XDDFLineChartData;
import org.apache.poi.xddf.usermodel.chart.XDDFNumericalDataSource;
import org.apache.poi.xddf.usermodel.chart.XDDFScatterChartData;
import org.apache.poi.xddf.usermodel.chart.XDDFValueAxis;
import org.apache.poi.xssf.usermodel.XSSFChart;
import org.apache.poi.xssf.usermodel.XSSFClientAnchor;
import org.apache.poi.xssf.usermodel.XSSFDrawing;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.jspecify.annotations.Nullable;
import org.sideport.report.workbook.UnitFigures.Competency;
import org.sideport.report.workbook.UnitFigures.CurvePlace;

/**
 * The sheet "Charts", drawn by the spreadsheet program from the cells of other sheets: means of the cohort with their
 * limits, and the fitted curves of whole operations. Marks and dashes tell the lines apart, so that they read in grey.
 */
final class ChartSheet {

    static final String NAME = "Charts";

    private static final int WIDE = 14;
    private static final int HIGH = 18;
    /** More lines than these cannot be told apart. */
    private static final int MOST_LINES = 12;

    private static final PresetColor[] INKS = {
        PresetColor.BLACK, PresetColor.DIM_GRAY, PresetColor.STEEL_BLUE, PresetColor.SADDLE_BROWN
    };
    private static final PresetLineDash[] DASHES = {
        PresetLineDash.SOLID, PresetLineDash.DASH, PresetLineDash.DOT, PresetLineDash.DASH_DOT
    };

    private final XSSFDrawing drawing;
    private final Headed competencies;
    private final Headed curves;
    private int next;

    /** Where the columns of a table stand. */
    private record Headed(Table<?> table) {
        String cells(String header, int first, int last) {
            int column = 0;
            while (!table.columns().get(column).header().equals(header)) {
                column++;
            }
            return new CellRangeAddress(first + 1, last + 1, column, column)
                    .formatAsString("'" + table.name() + "'", true);
        }
    }

    /** Rows of a table that make a line, from 0. */
    private record Rows(int first, int last) {}

    private ChartSheet(XSSFSheet sheet, Table<?> competencies, Table<?> curves) {
        this.drawing = sheet.createDrawingPatriarch();
        this.competencies = new Headed(competencies);
        this.curves = new Headed(curves);
    }

    /** @param sheet an empty one */
    static void draw(XSSFSheet sheet, UnitFigures figures, Table<Competency> competencies, Table<CurvePlace> curves) {
        ChartSheet charts = new ChartSheet(sheet, competencies, curves);
        Map<String, Rows> groups = new LinkedHashMap<>();
        List<Competency> all = competencies.rows();
        for (int i = 0; i < all.size(); i++) {
            if (all.get(i).group().competency().equals(UnitFigures.WHOLE)) {
                int at = i;
                groups.merge(
                        all.get(i).group().rubric() + " " + all.get(i).group().version(),
                        new Rows(at, at),
                        (old, now) -> new Rows(old.first(), now.last()));
            }
        }
        groups.forEach((rubric, rows) -> charts.means(rubric, all, rows));
        charts.learning(curves.rows());
    }

    private XSSFChart chart(String title) {
        XSSFClientAnchor anchor = drawing.createAnchor(0, 0, 0, 0, 0, next, WIDE, next + HIGH);
        next += HIGH + 1;
        XSSFChart chart = drawing.createChart(anchor);
        chart.setTitleText(title);
        chart.setTitleOverlay(false);
        chart.getOrAddLegend().setPosition(LegendPosition.BOTTOM);
        chart.displayBlanksAs(DisplayBlanks.GAP);
        return chart;
    }

    private void means(String rubric, List<Competency> all, Rows rows) {
        XSSFChart chart = chart("Mean of the last k cases with 95 % limits, " + rubric);
        XDDFCategoryAxis across = chart.createCategoryAxis(AxisPosition.BOTTOM);
        across.setTitle("trainee");
        XDDFValueAxis up = chart.createValueAxis(AxisPosition.LEFT);
        up.setTitle("share");
        up.setMinimum(0);
        up.setMaximum(1);
        up.setCrossBetween(AxisCrossBetween.BETWEEN);
        crossing(across, up);
        List<Competency> shown = all.subList(rows.first(), rows.last() + 1);
        XDDFDataSource<String> trainees = XDDFDataSourcesFactory.fromArray(
                shown.stream().map(c -> c.group().trainee()).toArray(String[]::new),
                competencies.cells("Trainee", rows.first(), rows.last()));
        XDDFLineChartData data = (XDDFLineChartData) chart.createData(ChartTypes.LINE, across, up);
        data.setVaryColors(false);
        mark(
                data,
                trainees,
                "mean",
                "Mean, last k",
                rows,
                MarkerStyle.DIAMOND,
                shown.stream().map(Competency::mean).toList());
        mark(
                data,
                trainees,
                "lower limit",
                "Lower limit",
                rows,
                MarkerStyle.DASH,
                shown.stream().map(Competency::lower).toList());
        mark(
                data,
                trainees,
                "upper limit",
                "Upper limit",
                rows,
                MarkerStyle.DASH,
                shown.stream().map(Competency::upper).toList());
        chart.plot(data);
    }

    private void mark(
            XDDFLineChartData data,
            XDDFDataSource<String> trainees,
            String title,
            String column,
            Rows rows,
            MarkerStyle mark,
            List<@Nullable Double> values) {
        XDDFLineChartData.Series series = (XDDFLineChartData.Series)
                data.addSeries(trainees, numbers(values, competencies.cells(column, rows.first(), rows.last())));
        series.setTitle(title, null);
        series.setSmooth(false);
        series.setMarkerStyle(mark);
        XDDFShapeProperties bare = new XDDFShapeProperties();
        XDDFLineProperties none = new XDDFLineProperties(new XDDFNoFillProperties());
        bare.setLineProperties(none);
        series.setShapeProperties(bare);
        XDDFShapeProperties ink = new XDDFShapeProperties();
        ink.setFillProperties(new XDDFSolidFillProperties(XDDFColor.from(PresetColor.BLACK)));
        ink.setLineProperties(new XDDFLineProperties(new XDDFSolidFillProperties(XDDFColor.from(PresetColor.BLACK))));
        series.getCTLineSer().getMarker().setSpPr(ink.getXmlObject());
    }

    private void learning(List<CurvePlace> places) {
        Map<String, Rows> lines = new LinkedHashMap<>();
        for (int i = 0; i < places.size(); i++) {
            int at = i;
            lines.merge(
                    places.get(i).trainee()
                            + (oneProcedure(places) ? "" : ", " + places.get(i).procedure()),
                    new Rows(at, at),
                    (old, now) -> new Rows(old.first(), now.last()));
        }
        List<String> names = List.copyOf(lines.keySet());
        for (int from = 0; from < names.size(); from += MOST_LINES) {
            List<String> some = names.subList(from, Math.min(names.size(), from + MOST_LINES));
            XSSFChart chart = chart("Fitted time of the whole operation");
            XDDFValueAxis across = chart.createValueAxis(AxisPosition.BOTTOM);
            across.setTitle("case number");
            XDDFValueAxis up = chart.createValueAxis(AxisPosition.LEFT);
            up.setTitle("seconds");
            up.setMinimum(0);
            crossing(across, up);
            XDDFScatterChartData data = (XDDFScatterChartData) chart.createData(ChartTypes.SCATTER, across, up);
            data.setStyle(ScatterStyle.LINE);
            data.setVaryColors(false);
            for (int i = 0; i < some.size(); i++) {
                Rows rows = lines.getOrDefault(some.get(i), new Rows(0, 0));
                line(data, some.get(i), places.subList(rows.first(), rows.last() + 1), rows, i);
            }
            chart.plot(data);
        }
    }

    private static boolean oneProcedure(List<CurvePlace> places) {
        return places.stream().map(CurvePlace::procedure).distinct().count() == 1;
    }

    private void line(XDDFScatterChartData data, String title, List<CurvePlace> places, Rows rows, int number) {
        XDDFScatterChartData.Series series = (XDDFScatterChartData.Series) data.addSeries(
                numbers(
                        places.stream().map(CurvePlace::caseNumber).toList(),
                        curves.cells("Case number", rows.first(), rows.last())),
                numbers(
                        places.stream().map(p -> p.us() / 1e6).toList(),
                        curves.cells("Fitted (s)", rows.first(), rows.last())));
        series.setTitle(title, null);
        series.setSmooth(false);
        series.setMarkerStyle(MarkerStyle.NONE);
        XDDFLineProperties line =
                new XDDFLineProperties(new XDDFSolidFillProperties(XDDFColor.from(INKS[number % INKS.length])));
        line.setPresetDash(new XDDFPresetLineDash(DASHES[number / INKS.length % DASHES.length]));
        line.setWidth(1.75);
        series.setLineProperties(line);
    }

    private static void crossing(XDDFChartAxis across, XDDFValueAxis up) {
        across.setCrosses(AxisCrosses.MIN);
        up.setCrosses(AxisCrosses.MIN);
    }

    private static XDDFNumericalDataSource<Double> numbers(List<@Nullable Double> values, String cells) {
        return XDDFDataSourcesFactory.fromArray(new ArrayList<>(values).toArray(Double[]::new), cells);
    }
}
