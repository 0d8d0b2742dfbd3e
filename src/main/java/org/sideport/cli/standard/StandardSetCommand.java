package org.sideport.cli.standard;

import java.time.LocalDate;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.cli.console.Json;
import org.sideport.model.InputException;
import org.sideport.model.Standard;
import org.sideport.model.StandardMethod;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.store.Workspace;
import org.sideport.workflow.CutBasis;
import org.sideport.workflow.CutProposal;
import org.sideport.workflow.DecisionFigures;
import org.sideport.workflow.StandardRounds;
import org.sideport.workflow.Standards;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "set",
        description = {
            "Computes a cut from what the workspace holds, and keeps it as the standard that people agreed.",
            "With --dry-run nothing is kept. A cut that cannot be computed ends with 1 and says why.",
            "",
            "  --method angoff                 the newest closed round of the rubric, or --round",
            "  --method borderline_regression  --grade-rubric R [--grade-item I] --borderline G",
            "  --method borderline_group       the same; graded within half a grade counts",
            "  --method contrasting_groups     --weaker T01,T02 --stronger T05,T06 (or cases, with --cases)",
            "  --method agreed                 --share 0.65",
            "",
            "The global grade is an item of the rubric itself, or comes from another rubric that the same",
            "assessor marked the same case with (its mean points, or one item)."
        })
final class StandardSetCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--method", paramLabel = "NAME", required = true, description = "See above.")
    String method;

    @Option(names = "--rubric", paramLabel = "R", required = true, description = "Id of the rubric.")
    String rubric;

    @Option(names = "--rubric-version", paramLabel = "V", description = "By default the one in use now.")
    @Nullable
    String version;

    @Option(names = "--round", paramLabel = "ID", description = "angoff: id of a closed round.")
    @Nullable
    String round;

    @Option(
            names = "--grade-rubric",
            paramLabel = "R",
            description = "Rubric of the global grade; by default the same.")
    @Nullable
    String gradeRubric;

    @Option(names = "--grade-item", paramLabel = "ITEM", description = "Item that is the global grade.")
    @Nullable
    String gradeItem;

    @Option(names = "--borderline", paramLabel = "GRADE", description = "Grade of a borderline performance.")
    @Nullable
    Double borderline;

    @Option(
            names = "--weaker",
            paramLabel = "T,...",
            split = ",",
            hideParamSyntax = true,
            description = "Trainees not yet competent.")
    List<String> weaker = List.of();

    @Option(
            names = "--stronger",
            paramLabel = "T,...",
            split = ",",
            hideParamSyntax = true,
            description = "Competent trainees.")
    List<String> stronger = List.of();

    @Option(names = "--cases", description = "The groups name cases, not trainees.")
    boolean cases;

    @Option(names = "--share", paramLabel = "S", description = "agreed: share of the maximum, 0 to 1.")
    @Nullable
    Double share;

    @Option(
            names = "--agreed-by",
            paramLabel = "A,...",
            split = ",",
            hideParamSyntax = true,
            description = "Codes of those who agreed.")
    List<String> agreedBy = List.of();

    @Option(names = "--on", paramLabel = "DATE", description = "Day on which it was agreed; by default today.")
    @Nullable
    LocalDate on;

    @Option(names = "--note", paramLabel = "TEXT", description = "Why.")
    String note = "";

    @Option(names = "--dry-run", description = "Compute and show only.")
    boolean dryRun;

    StandardSetCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        if (!dryRun && agreedBy.isEmpty()) {
            throw new InputException(
                    "who agreed is not said", "--agreed-by", "name them by code, or look first with --dry-run");
        }
        try (Workspace workspace = console.open()) {
            Standards standards = new Standards(workspace, Day.clock());
            Outcome<CutProposal> outcome = standards.propose(rubric, version, basis(workspace));
            if (outcome instanceof Outcome.Refused<CutProposal> refused) {
                refuse(refused.refusal());
                return 1;
            }
            CutProposal cut = outcome.orElseThrow();
            Standard kept = dryRun ? null : standards.agree(cut, agreedBy, on == null ? Day.today() : on, note);
            if (console.isJson()) {
                console.printJson(Json.object(
                        "cut",
                        StandardViews.json(cut),
                        "standard",
                        kept == null ? null : DecisionFigures.standard(kept)));
            } else {
                StandardViews.print(cut, console);
                if (kept != null) {
                    StandardViews.print(kept, console);
                } else {
                    console.say("Nothing was kept: a standard needs people who agree (--agreed-by).");
                }
                console.say(StandardViews.CAUTION);
            }
        }
        return 0;
    }

    private CutBasis basis(Workspace workspace) {
        return switch (StandardMethod.parse(method)) {
            case ANGOFF -> new CutBasis.Judged(round(workspace));
            case BORDERLINE_REGRESSION -> new CutBasis.Line(grades(), grade());
            case BORDERLINE_GROUP -> new CutBasis.Borderline(grades(), grade());
            case CONTRASTING_GROUPS ->
                new CutBasis.Groups(
                        cases ? CutBasis.Members.CASES : CutBasis.Members.TRAINEES,
                        given("--weaker", weaker),
                        given("--stronger", stronger));
            case AGREED -> {
                if (share == null) {
                    throw new InputException("the share is missing", "--share", "write for instance 0.65");
                }
                yield new CutBasis.Given(share);
            }
        };
    }

    private String round(Workspace workspace) {
        StandardRounds rounds = new StandardRounds(workspace, Day.clock());
        if (round != null) {
            return rounds.show(round).round().id();
        }
        return rounds.all().stream()
                .map(StandardRounds.View::round)
                .filter(r -> r.rubric().equals(rubric) && !r.isOpen())
                .map(r -> r.id())
                .findFirst()
                .orElseThrow(() -> new InputException(
                        "no round of rubric " + rubric + " is closed",
                        null,
                        "have judges fill one in: sideport standard round open --rubric " + rubric));
    }

    private CutBasis.Grades grades() {
        return new CutBasis.Grades(gradeRubric == null ? rubric : gradeRubric, gradeItem);
    }

    private double grade() {
        if (borderline == null) {
            throw new InputException(
                    "which grade is borderline is not said", "--borderline", "write for instance 2, or 2.5");
        }
        return borderline;
    }

    private static List<String> given(String option, List<String> codes) {
        if (codes.isEmpty()) {
            throw new InputException("a group is missing", option, "name its codes, separated by commas");
        }
        return codes.stream().map(String::strip).toList();
    }

    private void refuse(Refusal refusal) {
        if (console.isJson()) {
            console.printJson(Json.object("refused", DecisionFigures.refusal(refusal)));
        } else {
            console.say("No cut: " + refusal.why() + " — " + refusal.remedy() + ".");
        }
    }
}
