package org.sideport.app.progress;

import java.nio.file.Path;
import java.util.List;
import javafx.scene.layout.Region;
import org.sideport.app.Background;
import org.sideport.app.Notice;
import org.sideport.app.Notices;
import org.sideport.app.Texts;
import org.sideport.app.frame.Theme;
import org.sideport.chart.Chart;
import org.sideport.workflow.progress.ChartExport;

/**
 * What a chart on a screen needs.
 *
 * @param work where files are written
 * @param drawing where charts are drawn
 */
public record ChartKit(Background work, Background drawing, Notices notices, Theme theme, Texts texts) {

    /**
     * A chart under its title, with what it says in words below, and a menu to take it away.
     *
     * @param height of the drawing at the usual size of letters, pixels
     * @param says what it shows, a sentence each
     * @param note what it rests on; may be empty
     * @param prefix of the proposed names of files
     */
    public Region card(Chart chart, double height, List<String> says, String note, String prefix) {
        return new ChartCard(chart, height, says, note, prefix, this);
    }

    void export(Chart chart, Path file, ChartExport.Format format) {
        work.run(
                job -> {
                    ChartExport.write(chart, file, format);
                    return file;
                },
                written -> notices.show(Notice.done(texts.get("progress.exported"), written.toString())),
                notices::failed);
    }
}
