package org.sideport.cli.stats;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.segments.Background;
import org.sideport.stats.segments.FrameRate;
import org.sideport.stats.segments.Segment;
import org.sideport.stats.segments.SegmentSequence;
import org.sideport.stats.segments.TaggerAgreement;
import org.sideport.timing.TagCsvReader;
import org.sideport.timing.TagTable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "segments",
        description = {
            "Agreement of two taggers on the phases of the same recordings.",
            "",
            "By time (accuracy, kappa, overlap of each phase), by segment (edit score, F1 at overlaps of 10, 25 and 50 %%,"
                    + " missed and extra segments) and in the boundaries; and the order of the phases.",
            "",
            "The CSV is a tagging table, times in seconds or h:mm:ss.sss; an empty end",
            "means the next start:",
            "  case,annotator,phase,start,end",
            "  C07,A1,rhexis,84.2,139.1",
            "  C07,A2,rhexis,85.0,138.6",
            "",
            "What is compared of a case runs from the first start to the last end of",
            "either tagger."
        })
final class SegmentsCommand extends StatsCommand {

    private static final Pattern RATE = Pattern.compile("(\\d{1,6})(?:/(\\d{1,6}))?");

    @Parameters(paramLabel = "DATA.csv", description = "Tags of two annotators.")
    Path file = Path.of("");

    @Option(
            names = "--annotators",
            paramLabel = "A1,A2",
            split = ",",
            hideParamSyntax = true,
            description = "Which two, the reference first (default: the two in the file, in its order).")
    @Nullable
    String @Nullable [] annotators;

    @Option(
            names = "--frame-rate",
            paramLabel = "FPS",
            description = "Count frames too: frames a second, for instance 25 or 30000/1001.")
    @Nullable
    String frameRate;

    @Option(
            names = "--idle",
            paramLabel = "PHASE,...",
            split = ",",
            hideParamSyntax = true,
            description = "Phases that mean that nothing happens; they count as time without a phase.")
    String[] idle = {};

    @Option(
            names = "--leave-idle-out",
            description = "Do not count time that both leave without a phase (default: it counts as agreement).")
    boolean leaveIdleOut;

    @Option(
            names = "--order",
            paramLabel = "PHASE,...",
            split = ",",
            hideParamSyntax = true,
            description = "A standard order; how far each tagger's order is from it is said.")
    String[] order = {};

    @Mixin
    private ResamplingOptions resampling = new ResamplingOptions();

    @Mixin
    private ConfidenceOption confidence = new ConfidenceOption();

    SegmentsCommand(Console console) {
        super(console);
    }

    @Override
    Outcome<Answer> answer() {
        @Nullable FrameRate rate = frameRate == null ? null : rate(frameRate);
        Map<String, Map<String, SegmentSequence>> cases = read();
        List<String> pair = pair(cases);
        List<SegmentReport.Case> compared = new ArrayList<>();
        List<String> warnings = new ArrayList<>();
        for (Map.Entry<String, Map<String, SegmentSequence>> entry : cases.entrySet()) {
            SegmentSequence reference = entry.getValue().get(pair.get(0));
            SegmentSequence other = entry.getValue().get(pair.get(1));
            if (reference == null || other == null) {
                warnings.add("Case " + entry.getKey() + " is left out: only one of " + pair.get(0) + " and "
                        + pair.get(1) + " tagged it.");
                continue;
            }
            Outcome<TaggerAgreement> agreement = TaggerAgreement.of(
                    reference, other, leaveIdleOut ? Background.LEFT_OUT_IF_BOTH : Background.CATEGORY, rate);
            if (agreement instanceof Outcome.Refused<TaggerAgreement> refused) {
                warnings.add("Case " + entry.getKey() + " is left out: "
                        + refused.refusal().why() + ".");
                continue;
            }
            compared.add(new SegmentReport.Case(entry.getKey(), reference, other, agreement.orElseThrow()));
        }
        if (compared.isEmpty()) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "no case was tagged by both " + pair.get(0) + " and " + pair.get(1),
                    "have both tag the same recordings, or name two others with --annotators");
        }
        return Outcome.of(
                new SegmentReport(pair, compared, List.of(order), resampling.bootstrap(confidence.level()), warnings)
                        .answer());
    }

    private static FrameRate rate(String text) {
        Matcher matcher = RATE.matcher(text.trim());
        if (matcher.matches()) {
            int numerator = Integer.parseInt(matcher.group(1));
            int denominator = matcher.group(2) == null ? 1 : Integer.parseInt(matcher.group(2));
            if (numerator > 0 && denominator > 0) {
                return new FrameRate(numerator, denominator);
            }
        }
        throw new InputException(text + " is no frame rate", "--frame-rate", "write for instance 25 or 30000/1001");
    }

    private Map<String, Map<String, SegmentSequence>> read() {
        TagTable table = new TagCsvReader(null).read(file);
        if (table.kind() != TagTable.Kind.PHASES) {
            throw new InputException(
                    "this file holds events, not phases",
                    file.toString(),
                    "give a file with the columns phase, start, end");
        }
        Set<String> nothing = Set.copyOf(Arrays.asList(idle));
        Map<String, Map<String, SegmentSequence>> cases = new LinkedHashMap<>();
        for (TagTable.Entry entry : table.entries()) {
            String who = entry.annotator();
            if (who == null) {
                throw new InputException(
                        "the column annotator is empty", file + ", line " + entry.line(), "say who tagged this");
            }
            List<Segment> segments = new ArrayList<>();
            for (PhaseSpan span : entry.tagging().spans()) {
                MediaTime end = span.end();
                if (end == null) {
                    throw new InputException(
                            "the last phase of case " + entry.caseCode() + " by " + who + ", " + span.phase()
                                    + ", has no end",
                            file.toString(),
                            "fill in the end, for instance the end of the recording");
                }
                segments.add(new Segment(span.phase(), span.start().micros(), end.micros()));
            }
            cases.computeIfAbsent(entry.caseCode(), c -> new LinkedHashMap<>())
                    .put(who, new SegmentSequence(segments).without(nothing));
        }
        return cases;
    }

    private List<String> pair(Map<String, Map<String, SegmentSequence>> cases) {
        Set<String> all = new LinkedHashSet<>();
        cases.values().forEach(c -> all.addAll(c.keySet()));
        List<String> wanted = annotators == null ? List.copyOf(all) : List.of(annotators);
        if (wanted.size() != 2 || wanted.get(0).equals(wanted.get(1)) || !all.containsAll(wanted)) {
            throw new InputException(
                    annotators == null
                            ? "there are " + all.size() + " annotators: " + String.join(", ", all)
                            : "the annotators in the file are " + String.join(", ", all),
                    file.toString(),
                    "name two of them with --annotators, the reference first");
        }
        return wanted;
    }
}
