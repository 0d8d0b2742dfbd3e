package org.sideport.demo;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.apache.commons.csv.CSVPrinter;
import org.sideport.model.ItemScore;
import org.sideport.model.Rating;
import org.sideport.model.Tagging;

/** Writes the cohort as CSV, in the columns that Sideport itself imports. */
final class CohortFiles {

    private final Path folder;

    CohortFiles(Path folder) {
        this.folder = folder;
    }

    void cases(List<CohortCase> cases) throws IOException {
        try (CSVPrinter out = printer("cohort-cases.csv")) {
            out.printRecord("case", "trainee", "date", "procedure", "nuclear_grade", "pupil", "eye", "anaesthesia");
            for (CohortCase c : cases) {
                out.printRecord(
                        c.code(),
                        c.trainee().code(),
                        c.date(),
                        "phaco",
                        grade(c.nuclearGrade()),
                        c.pupil(),
                        c.eye(),
                        c.anaesthesia());
            }
        }
    }

    /** As the values of the descriptor are written in the procedure file: {@code 2}, {@code 2.5}. */
    private static String grade(double grade) {
        return grade == Math.rint(grade) ? Long.toString(Math.round(grade)) : String.format(Locale.ROOT, "%.1f", grade);
    }

    void taggings(List<CohortCase> cases) throws IOException {
        try (TagFiles tags = new TagFiles(folder.resolve("cohort-phases.csv"), folder.resolve("cohort-events.csv"))) {
            for (CohortCase c : cases) {
                tags.add(c.code(), c.assessor(), c.tagging());
            }
        }
    }

    /** What a second annotator made of some of the cases; phases only, in a file of its own. */
    void secondLooks(List<CohortCase> cases, List<String> annotators, List<Tagging> looks) throws IOException {
        try (CSVPrinter out = printer("cohort-second-phases.csv")) {
            out.printRecord((Object[]) TagFiles.PHASE_COLUMNS);
            for (int i = 0; i < cases.size(); i++) {
                TagFiles.phases(out, cases.get(i).code(), annotators.get(i), looks.get(i));
            }
        }
    }

    void ratings(List<CohortCase> cases, List<List<Rating>> ratings) throws IOException {
        try (CSVPrinter out = printer("cohort-ratings.csv")) {
            out.printRecord(
                    "case", "rubric", "version", "assessor", "self", "item", "points", "not_applicable", "comment");
            for (int i = 0; i < cases.size(); i++) {
                for (Rating rating : ratings.get(i)) {
                    for (ItemScore score : rating.scores()) {
                        Integer points = score.pointsOrNull();
                        out.printRecord(
                                cases.get(i).code(),
                                rating.rubric(),
                                rating.rubricVersion(),
                                rating.assessor(),
                                rating.self(),
                                score.item(),
                                points == null ? "" : points,
                                score instanceof ItemScore.Excused excused
                                        ? excused.reason().id()
                                        : "",
                                score.comment());
                    }
                }
            }
        }
    }

    private CSVPrinter printer(String name) throws IOException {
        return new CSVPrinter(Files.newBufferedWriter(folder.resolve(name), StandardCharsets.UTF_8), TagFiles.FORMAT);
    }
}
