package org.sideport.workflow;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Comment;
import org.sideport.model.CommentThread;
import org.sideport.model.Cut;
import org.sideport.model.Exemplar;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Procedure;
import org.sideport.model.Recording;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.model.Voice;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.describe.BinomialLimits;
import org.sideport.stats.describe.PercentileRank;
import org.sideport.store.Stores;
import org.sideport.store.TaggingStore;
import org.sideport.store.Workspace;
import org.sideport.timing.CaseTiming;
import org.sideport.timing.PhaseTiming;
import org.sideport.timing.PublishedDurations;
import org.sideport.timing.TimeMap;
import org.sideport.workflow.Comparison.Orientation;
import org.sideport.workflow.Comparison.Row;
import org.sideport.workflow.Comparison.Side;
import org.sideport.workflow.Comparison.Standing;
import org.sideport.workflow.Comparison.Time;
import org.sideport.workflow.ComputeTimings.Level;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Puts two cases of one procedure beside each other. */
public final class CompareCases {

    private static final double LEVEL = 0.95;

    private final Workspace workspace;
    private final Vocabularies vocabularies;
    private final LatePublished published = new LatePublished();

    public CompareCases(Workspace workspace) {
        this.workspace = workspace;
        this.vocabularies = new Vocabularies(workspace);
    }

    /**
     * A case that can be compared.
     *
     * @param annotators who tagged phases of it
     * @param exemplar true if it was named as one
     */
    public record Candidate(SurgicalCase surgicalCase, List<String> annotators, boolean exemplar) {
        public Candidate {
            annotators = List.copyOf(annotators);
        }
    }

    /**
     * Which case, and whose tags of it.
     *
     * @param annotator {@code null} to leave the choice to the rules
     */
    public record Choice(String caseCode, @Nullable String annotator) {}

    /** One side as it is stored. */
    private record Raw(
            SurgicalCase surgicalCase,
            String annotator,
            List<String> annotators,
            Tagging tagging,
            List<Cut> cuts,
            @Nullable Exemplar exemplar,
            List<Comment> spoken) {

        @Nullable
        MediaTime end() {
            Recording recording = surgicalCase.recording();
            return recording == null ? null : recording.duration();
        }
    }

    /** All cases with tagged phases, newest first. */
    public List<Candidate> candidates() {
        Access.require(workspace, Permission.SEE_CASE);
        return workspace.read(stores -> {
            Set<String> exemplars = new LinkedHashSet<>();
            stores.exemplars().all().forEach(e -> exemplars.add(e.caseCode()));
            Set<TaggingStore.Key> tagged = new LinkedHashSet<>(stores.taggings().withPhases());
            List<Candidate> all = new ArrayList<>();
            List<SurgicalCase> reached =
                    new ArrayList<>(stores.cases().all(Access.cases(stores.caller(), Permission.SEE_CASE)));
            if (Access.may(stores.caller(), Permission.SEE_EXEMPLAR)) {
                Set<String> known = new LinkedHashSet<>();
                reached.forEach(one -> known.add(one.code()));
                exemplars.stream()
                        .filter(code -> !known.contains(code))
                        .forEach(code -> reached.add(stores.cases().get(code)));
            }
            for (SurgicalCase one : reached) {
                List<String> annotators = tagged.stream()
                        .filter(k -> k.caseCode().equals(one.code()))
                        .map(TaggingStore.Key::annotator)
                        .toList();
                if (!annotators.isEmpty()) {
                    all.add(new Candidate(one, annotators, exemplars.contains(one.code())));
                }
            }
            all.sort(Comparator.comparing((Candidate c) -> c.surgicalCase().date())
                    .thenComparing(c -> c.surgicalCase().code())
                    .reversed());
            return all;
        });
    }

    /** The same trainee's case of the same procedure before this one, among those given. */
    public static Optional<Candidate> previous(List<Candidate> candidates, SurgicalCase of) {
        return candidates.stream()
                .filter(c -> of.hidden().isEmpty()
                        && c.surgicalCase().hidden().isEmpty()
                        && c.surgicalCase().trainee().equals(of.trainee())
                        && c.surgicalCase().procedure().equals(of.procedure())
                        && order(c.surgicalCase(), of) < 0)
                .max((a, b) -> order(a.surgicalCase(), b.surgicalCase()));
    }

    private static int order(SurgicalCase one, SurgicalCase other) {
        int byDate = one.date().compareTo(other.date());
        return byDate != 0 ? byDate : one.code().compareTo(other.code());
    }

    /**
     * @param preferred whose tags are taken where none are asked for and there are some; {@code null} for nobody's. Without
     *     any, those of somebody who tagged both
     * @param level as {@link ComputeTimings}; steps are added up where one side has only their phase
     * @throws InputException if there is no such case, one has no tagged phases, or they are of different procedures
     */
    public Comparison compare(Choice left, Choice right, @Nullable String preferred, Level level) {
        record Pair(Raw left, Raw right, List<Raw> exemplars) {}
        Pair pair = workspace.read(stores -> {
            Access.requireWatch(stores, left.caseCode());
            Access.requireWatch(stores, right.caseCode());
            String one = stores.cases().get(left.caseCode()).code();
            String other = stores.cases().get(right.caseCode()).code();
            String both = WhichTagging.ofBoth(stores, one, other);
            Raw first = raw(stores, one, left.annotator(), preferred, both);
            Raw second = raw(stores, other, right.annotator(), preferred, both);
            List<Raw> references = stores.exemplars().of(first.surgicalCase().procedure()).stream()
                    .filter(e -> !e.caseCode().equals(one))
                    .flatMap(e -> reference(stores, e).stream())
                    .toList();
            return new Pair(first, second, references);
        });
        SurgicalCase one = pair.left().surgicalCase();
        SurgicalCase other = pair.right().surgicalCase();
        if (!one.procedure().equals(other.procedure())) {
            throw new InputException(
                    one.code() + " and " + other.code() + " are of different procedures",
                    null,
                    "choose two cases of the same procedure");
        }
        Procedure procedure = vocabularies.procedure(one.procedure());
        CommonNames names = new CommonNames(
                procedure, level, List.of(pair.left().tagging(), pair.right().tagging()));
        return comparison(procedure, names, side(pair.left(), names), side(pair.right(), names), pair.exemplars());
    }

    private static Raw raw(
            Stores stores, String code, @Nullable String asked, @Nullable String preferred, @Nullable String both) {
        List<Exemplar> exemplars = stores.exemplars().all().stream()
                .filter(e -> e.caseCode().equals(code))
                .toList();
        String whose = WhichTagging.of(stores, code, asked, preferred);
        if (asked == null && !whose.equals(preferred)) {
            if (!exemplars.isEmpty()) {
                whose = WhichTagging.of(stores, code, null, exemplars.get(0).annotator());
            } else if (both != null) {
                whose = both;
            }
        }
        String annotator = whose;
        return new Raw(
                stores.cases().get(code),
                annotator,
                WhichTagging.all(stores, code),
                stores.taggings().find(code, annotator).orElse(Tagging.EMPTY),
                stores.cuts().of(code),
                exemplars.stream()
                        .filter(e -> e.annotator().equals(annotator))
                        .findFirst()
                        .orElse(null),
                spoken(stores, code, exemplars));
    }

    /** All that may be read; of a case that is seen as an exemplar only, the words of who named it: the rest is its trainee's. */
    private static List<Comment> spoken(Stores stores, String code, List<Exemplar> exemplars) {
        boolean all = Access.may(stores, Permission.SEE_CASE, code);
        return stores.comments().threads(code, "").stream()
                .map(CommentThread::comment)
                .filter(c -> c.voice() != null)
                .filter(c -> all || exemplars.stream().anyMatch(e -> e.namedBy().equals(c.author())))
                .toList();
    }

    /** An exemplar whose tags were deleted meanwhile says nothing. */
    private static Optional<Raw> reference(Stores stores, Exemplar exemplar) {
        String code = exemplar.caseCode();
        return stores.taggings()
                .find(code, exemplar.annotator())
                .map(tagging -> new Raw(
                        stores.cases().get(code),
                        exemplar.annotator(),
                        List.of(exemplar.annotator()),
                        tagging,
                        stores.cuts().of(code),
                        exemplar,
                        List.of()));
    }

    private static CaseTiming timing(Raw raw, CommonNames names) {
        return names.timer().time(raw.surgicalCase().code(), raw.annotator(), raw.tagging(), raw.end(), raw.cuts());
    }

    private Side side(Raw raw, CommonNames names) {
        return new Side(
                raw.surgicalCase(),
                raw.annotator(),
                raw.annotators(),
                names.episodes(raw.tagging(), raw.end()),
                timing(raw, names),
                raw.exemplar(),
                raw.spoken().stream().flatMap(this::narrated).toList());
    }

    private Stream<Comparison.Narrated> narrated(Comment comment) {
        Voice voice = comment.voice();
        return voice == null
                ? Stream.empty()
                : Stream.of(new Comparison.Narrated(comment, workspace.voices().file(voice.sha256())));
    }

    private Comparison comparison(Procedure procedure, CommonNames names, Side left, Side right, List<Raw> exemplars) {
        List<CaseTiming> references =
                exemplars.stream().map(raw -> timing(raw, names)).toList();
        TimeMap clock = TimeMap.sameClock(left.end(), right.end());
        TimeMap byPhase = TimeMap.aligned(left.episodes(), left.end(), right.episodes(), right.end());
        List<Row> rows = new ArrayList<>();
        for (String id : ids(procedure, left.timing(), right.timing())) {
            PhaseTiming ofLeft = find(left.timing(), id);
            rows.add(new Row(
                    id,
                    procedure.find(id).map(Procedure.Term::name).orElse(id),
                    time(ofLeft),
                    time(find(right.timing(), id)),
                    standing(ofLeft, references, id),
                    orientation(procedure, ofLeft, id)));
        }
        return new Comparison(
                procedure,
                left,
                right,
                byPhase.matched() == 0 ? clock : byPhase,
                clock,
                rows,
                totals(left.timing(), right.timing()),
                published.get());
    }

    private static List<String> ids(Procedure procedure, CaseTiming left, CaseTiming right) {
        Set<String> used = new LinkedHashSet<>();
        Stream.concat(left.phases().stream(), right.phases().stream()).forEach(p -> used.add(p.phase()));
        List<String> ids = new ArrayList<>();
        procedure.terms().stream()
                .map(Procedure.Term::id)
                .filter(used::contains)
                .forEach(ids::add);
        used.stream().filter(id -> !ids.contains(id)).forEach(ids::add);
        return ids;
    }

    private static @Nullable PhaseTiming find(CaseTiming timing, String id) {
        return timing.phases().stream()
                .filter(p -> p.phase().equals(id))
                .findFirst()
                .orElse(null);
    }

    private static @Nullable Time time(@Nullable PhaseTiming timing) {
        return timing == null
                ? null
                : new Time(timing.activeUs(), timing.unsure().active(), timing.episodes());
    }

    private static @Nullable Standing standing(@Nullable PhaseTiming left, List<CaseTiming> references, String id) {
        Long mine = left == null ? null : left.sureActiveUs();
        if (mine == null) {
            return null;
        }
        double[] theirs = references.stream()
                .map(timing -> find(timing, id))
                .flatMap(p -> Stream.ofNullable(p == null ? null : p.sureActiveUs()))
                .mapToDouble(Long::doubleValue)
                .toArray();
        Outcome<Estimate> rank = PercentileRank.of(mine, theirs, BinomialLimits.WILSON, LEVEL);
        if (!(rank instanceof Outcome.Found<Estimate> found)) {
            return null;
        }
        int longer = 0;
        int shorter = 0;
        for (double other : theirs) {
            longer += other > mine ? 1 : 0;
            shorter += other < mine ? 1 : 0;
        }
        return new Standing(longer, shorter, theirs.length, found.value());
    }

    private List<Orientation> orientation(Procedure procedure, @Nullable PhaseTiming left, String id) {
        List<Orientation> all = new ArrayList<>();
        for (PublishedDurations.Group group : published.get().groups()) {
            if (group.procedure().equals(procedure.id())) {
                group.row(id).ifPresent(row -> all.add(new Orientation(group, row, place(left, row.spread()))));
            }
        }
        return all;
    }

    private static PublishedDurations.@Nullable Place place(
            @Nullable PhaseTiming left, PublishedDurations.@Nullable Spread spread) {
        Long mine = left == null ? null : left.sureActiveUs();
        return mine == null || spread == null ? null : spread.placeOf(mine / 1e6);
    }

    private static List<Row> totals(CaseTiming left, CaseTiming right) {
        return List.of(
                total(
                        Comparison.OPERATING,
                        new Time(left.operatingUs(), left.unsure().span(), 0),
                        new Time(right.operatingUs(), right.unsure().span(), 0)),
                total(
                        Comparison.ACTIVE,
                        new Time(left.activeUs(), left.unsure().active(), 0),
                        new Time(right.activeUs(), right.unsure().active(), 0)),
                total(
                        Comparison.IDLE,
                        new Time(left.idleUs(), left.unsure().idle(), 0),
                        new Time(right.idleUs(), right.unsure().idle(), 0)));
    }

    private static Row total(String id, Time left, Time right) {
        return new Row(id, id, left, right, null, List.of());
    }
}
