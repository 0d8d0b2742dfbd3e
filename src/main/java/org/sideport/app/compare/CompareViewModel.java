package org.sideport.app.compare;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.beans.property.SimpleObjectProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.CurrentCase;
import org.sideport.app.Notices;
import org.sideport.app.Settings;
import org.sideport.app.Texts;
import org.sideport.app.comment.LiveDrawing;
import org.sideport.app.compare.PairDesk.Side;
import org.sideport.app.voice.Narrator;
import org.sideport.model.Exemplar;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Recording;
import org.sideport.model.SurgicalCase;
import org.sideport.timing.TimeMap;
import org.sideport.timing.TimeMap.Kind;
import org.sideport.timing.TimeMap.Piece;
import org.sideport.timing.TimeMap.Place;
import org.sideport.workflow.CompareCases;
import org.sideport.workflow.CompareCases.Candidate;
import org.sideport.workflow.CompareCases.Choice;
import org.sideport.workflow.Comparison;
import org.sideport.workflow.ComputeTimings.Level;
import org.sideport.workflow.Exemplars;
import org.sideport.workflow.OpenRecording;

/** Which two cases are beside each other, and where in them one is. */
public final class CompareViewModel {

    /** How the two recordings lie against each other. */
    public enum Mode {
        PHASES,
        CLOCK
    }

    /** How long after a jump it is still said what was jumped over, microseconds of the leading side. */
    private static final long SAID_FOR_US = 3_000_000;

    private final CompareCases cases;
    private final Exemplars exemplars;
    private final OpenRecording recordings;
    private final CurrentCase current;
    private final PairDesk pair;
    private final Narrator narrator;
    private final LiveDrawing leftDrawing = new LiveDrawing();
    private final LiveDrawing rightDrawing = new LiveDrawing();
    private final Background work;
    private final Notices notices;
    private final Texts texts;
    private final Settings settings;
    private final ObservableList<Candidate> candidates = FXCollections.observableArrayList();
    private final ObservableList<Exemplar> named = FXCollections.observableArrayList();
    private final ReadOnlyBooleanWrapper loaded = new ReadOnlyBooleanWrapper(false);
    private final ReadOnlyObjectWrapper<@Nullable Choice> left = new ReadOnlyObjectWrapper<>(null);
    private final ReadOnlyObjectWrapper<@Nullable Choice> right = new ReadOnlyObjectWrapper<>(null);
    private final ReadOnlyObjectWrapper<@Nullable Comparison> comparison = new ReadOnlyObjectWrapper<>(null);
    private final ObjectProperty<Mode> mode = new SimpleObjectProperty<>(Mode.PHASES);
    private final ObjectProperty<Level> level = new SimpleObjectProperty<>(Level.STEP);
    private final ReadOnlyStringWrapper whereText = new ReadOnlyStringWrapper("");
    private int turn;

    public CompareViewModel(
            CompareCases cases,
            Exemplars exemplars,
            OpenRecording recordings,
            CurrentCase current,
            PairDesk pair,
            Narrator narrator,
            Background work,
            Notices notices,
            Texts texts,
            Settings settings) {
        this.cases = cases;
        this.exemplars = exemplars;
        this.recordings = recordings;
        this.current = current;
        this.pair = pair;
        this.narrator = narrator;
        pair.beforeUse(narrator::end);
        this.work = work;
        this.notices = notices;
        this.texts = texts;
        this.settings = settings;
        mode.addListener((property, old, now) -> align());
        level.addListener((property, old, now) -> compare());
        pair.placeProperty().addListener((property, old, now) -> whereText.set(where(now)));
    }

    public PairDesk pair() {
        return pair;
    }

    /** Through whom what was spoken over a recording is heard. */
    public Narrator narrator() {
        return narrator;
    }

    /** What is shown on the picture of a side while a voice is heard. */
    LiveDrawing drawing(Side side) {
        return side == Side.LEFT ? leftDrawing : rightDrawing;
    }

    /** Lets something that was spoken over a side's recording be heard; the other side goes along with the picture. */
    public void hear(Side side, Comparison.Narrated spoken) {
        narrator.end();
        narrator.play(pair.handOver(side), spoken.comment(), spoken.sound(), drawing(side));
    }

    /** Cases with tagged phases, newest first. */
    public ObservableList<Candidate> candidates() {
        return candidates;
    }

    /** By procedure, the usual one first. */
    public ObservableList<Exemplar> exemplars() {
        return named;
    }

    /** True once the candidates have been read. */
    public ReadOnlyBooleanProperty loadedProperty() {
        return loaded.getReadOnlyProperty();
    }

    public ReadOnlyObjectProperty<@Nullable Choice> choiceProperty(Side side) {
        return (side == Side.LEFT ? left : right).getReadOnlyProperty();
    }

    /** {@code null} until two cases were chosen. */
    public ReadOnlyObjectProperty<@Nullable Comparison> comparisonProperty() {
        return comparison.getReadOnlyProperty();
    }

    public ObjectProperty<Mode> modeProperty() {
        return mode;
    }

    /** Whether steps or phases are compared. */
    public ObjectProperty<Level> levelProperty() {
        return level;
    }

    /** What is to be said of the place where one is: where one side stands still, or jumped. */
    public ReadOnlyStringProperty whereProperty() {
        return whereText.getReadOnlyProperty();
    }

    // ---- choosing

    /** Reads anew what there is; the case that is open elsewhere is offered first. */
    public void refresh() {
        work.run(progress -> new Found(cases.candidates(), exemplars.all()), this::arrived, notices::failed);
    }

    private record Found(List<Candidate> candidates, List<Exemplar> exemplars) {}

    private void arrived(Found found) {
        candidates.setAll(found.candidates());
        named.setAll(found.exemplars());
        loaded.set(true);
        CurrentCase.Opened open = current.opened();
        if (left.get() == null && open != null && find(open.code()).isPresent()) {
            left.set(new Choice(open.code(), null));
        }
        compare();
    }

    private Optional<Candidate> find(String code) {
        return candidates.stream()
                .filter(c -> c.surgicalCase().code().equalsIgnoreCase(code.strip()))
                .findFirst();
    }

    /** The candidates whose code, trainee or date holds the text, those whose code starts with it first. */
    public List<Candidate> search(String text) {
        String wanted = text.strip().toLowerCase(java.util.Locale.ROOT);
        List<Candidate> starting = new ArrayList<>();
        List<Candidate> holding = new ArrayList<>();
        for (Candidate each : candidates) {
            SurgicalCase one = each.surgicalCase();
            if (one.code().toLowerCase(java.util.Locale.ROOT).startsWith(wanted)) {
                starting.add(each);
            } else if ((one.code() + " " + one.trainee() + " " + one.date())
                    .toLowerCase(java.util.Locale.ROOT)
                    .contains(wanted)) {
                holding.add(each);
            }
        }
        starting.addAll(holding);
        return starting;
    }

    /** Puts a case on a side; says so where there is no such one. @return false then */
    public boolean choose(Side side, String code) {
        Optional<Candidate> found = find(code);
        if (found.isEmpty()) {
            notices.hint(texts.get("compare.noSuchCase", code.strip()));
            return false;
        }
        set(side, new Choice(found.get().surgicalCase().code(), null));
        return true;
    }

    /** Takes somebody else's tags of the case on a side. */
    public void chooseAnnotator(Side side, String annotator) {
        Choice now = choiceProperty(side).get();
        if (now != null && !annotator.equals(now.annotator())) {
            set(side, new Choice(now.caseCode(), annotator));
        }
    }

    private void set(Side side, Choice choice) {
        narrator.end();
        (side == Side.LEFT ? left : right).set(choice);
        compare();
    }

    /** Left becomes right. */
    public void swap() {
        narrator.end();
        Choice first = left.get();
        left.set(right.get());
        right.set(first);
        compare();
    }

    /** Puts an exemplar on the right, with the tags by which it was named. */
    public void useExemplar(Exemplar exemplar) {
        Choice now = left.get();
        if (now != null && now.caseCode().equals(exemplar.caseCode())) {
            notices.hintOf("compare.isExemplar");
        } else {
            set(Side.RIGHT, new Choice(exemplar.caseCode(), exemplar.annotator()));
        }
    }

    /** True if who signed in works under the own code. */
    public boolean isPersonFixed() {
        return settings.isFixed("annotator");
    }

    /** Who sits here, as far as is known: the annotator's code. */
    public String person() {
        return settings.get("annotator", "");
    }

    /** Names a case as an exemplar, by somebody's tags. */
    public void name(String code, String annotator, String title, String why, String person, boolean usual) {
        work.run(
                progress -> exemplars.name(code, annotator, title, why, person, usual),
                named -> {
                    notices.hint(texts.get("exemplar.named", named.caseCode()));
                    refresh();
                },
                notices::failed);
    }

    /** Puts the same trainee's case before the left one on the right; says so where there is none. */
    public void usePrevious() {
        SurgicalCase of = caseOf(left.get());
        if (of == null) {
            notices.hintOf("compare.chooseLeft");
            return;
        }
        Optional<Candidate> before = CompareCases.previous(candidates, of);
        if (before.isPresent()) {
            set(Side.RIGHT, new Choice(before.get().surgicalCase().code(), null));
        } else {
            notices.hint(texts.get("compare.noPrevious", of.trainee(), of.code()));
        }
    }

    private @Nullable SurgicalCase caseOf(@Nullable Choice choice) {
        return choice == null
                ? null
                : find(choice.caseCode()).map(Candidate::surgicalCase).orElse(null);
    }

    // ---- comparing

    private record Loaded(
            Comparison comparison,
            @Nullable Recording left,
            @Nullable Recording right,
            @Nullable InputException problem) {}

    private void compare() {
        Choice one = left.get();
        Choice other = right.get();
        int mine = ++turn;
        if (one == null || other == null) {
            comparison.set(null);
            pair.follow(null);
            return;
        }
        String annotator = settings.get("annotator", "");
        Level wanted = level.get();
        work.run(
                progress -> load(one, other, annotator.isBlank() ? null : annotator, wanted),
                now -> {
                    if (turn == mine) {
                        show(now);
                    }
                },
                failure -> {
                    if (turn == mine) {
                        comparison.set(null);
                        pair.follow(null);
                        notices.failed(failure);
                    }
                });
    }

    private Loaded load(Choice one, Choice other, @Nullable String annotator, Level wanted) {
        Comparison found = cases.compare(one, other, annotator, wanted);
        InputException problem = null;
        Recording[] located = new Recording[2];
        List<SurgicalCase> both =
                List.of(found.left().surgicalCase(), found.right().surgicalCase());
        for (int i = 0; i < 2; i++) {
            if (both.get(i).recording() != null) {
                try {
                    located[i] = recordings.locate(both.get(i));
                } catch (InputException missing) {
                    problem = missing;
                }
            }
        }
        return new Loaded(found, located[0], located[1], problem);
    }

    private void show(Loaded now) {
        if (now.problem() != null) {
            notices.failed(now.problem());
        }
        pair.open(Side.LEFT, now.left());
        pair.open(Side.RIGHT, now.right());
        if (now.left() == null && now.right() != null) {
            pair.lead(Side.RIGHT);
        }
        comparison.set(now.comparison());
        align();
    }

    /** From aligned by phase to the same clock time, and back. */
    public void toggleMode() {
        mode.set(mode.get() == Mode.PHASES ? Mode.CLOCK : Mode.PHASES);
    }

    private void align() {
        Comparison now = comparison.get();
        pair.follow(now == null ? null : map(now));
    }

    /** The map in use: by phases, unless there are none in common or the clock was asked for. */
    private TimeMap map(Comparison now) {
        return mode.get() == Mode.PHASES ? now.aligned() : now.sameClock();
    }

    // ---- moving

    /** Both to the start of the next phase (1), or back to that of this or the one before (-1). */
    public void toPhase(int by) {
        Comparison now = comparison.get();
        if (now == null) {
            return;
        }
        Side leader = pair.leaderProperty().get();
        List<Long> starts = starts(now, leader);
        long at = pair.position().micros();
        Long target = null;
        for (long start : starts) {
            if (by > 0 && start > at) {
                target = start;
                break;
            }
            if (by < 0 && start < at) {
                target = start;
            }
        }
        if (target == null) {
            notices.hintOf(by > 0 ? "compare.noNext" : "compare.noBefore");
        } else {
            pair.seek(leader, MediaTime.ofMicros(target));
        }
    }

    /** Starts of the leading side's phases, and the places where the other one has one more. */
    private static List<Long> starts(Comparison now, Side leader) {
        TimeMap map = leader == Side.LEFT ? now.aligned() : now.aligned().inverse();
        return map.pieces().stream()
                .filter(p -> p.label() != null)
                .map(Piece::leftStartUs)
                .distinct()
                .sorted()
                .toList();
    }

    /** Both to the first start of a phase, on the side that leads if it has it, else on the other. */
    public void toPhase(String label) {
        Comparison now = comparison.get();
        if (now == null) {
            return;
        }
        Side leader = pair.leaderProperty().get();
        if (!seekFirst(now, leader, label)) {
            seekFirst(now, leader.other(), label);
        }
    }

    private boolean seekFirst(Comparison now, Side side, String label) {
        var episodes = (side == Side.LEFT ? now.left() : now.right()).episodes();
        var first = episodes.stream().filter(e -> e.label().equals(label)).findFirst();
        first.ifPresent(e -> pair.seek(side, MediaTime.ofMicros(e.startUs())));
        return first.isPresent();
    }

    /** Words for what one sees where the sides differ; empty where both go along. */
    private String where(@Nullable Place place) {
        Comparison now = comparison.get();
        if (now == null || place == null) {
            return "";
        }
        boolean leftLeads = pair.leaderProperty().get() == Side.LEFT;
        String other = texts.get(leftLeads ? "compare.right" : "compare.left");
        Piece piece = place.piece();
        if (piece.kind() == Kind.LEFT_ONLY) {
            String label = piece.label();
            if (label == null) {
                return mode.get() == Mode.CLOCK ? texts.get("compare.ended", other) : texts.get("compare.waits", other);
            }
            return texts.get("compare.lacks", other, now.nameOf(label));
        }
        List<String> skipped = place.skipped().stream()
                .map(Piece::label)
                .filter(Objects::nonNull)
                .map(label -> now.nameOf(Objects.requireNonNull(label)))
                .toList();
        boolean justNow = pair.position().micros() - piece.leftStartUs() < SAID_FOR_US;
        return skipped.isEmpty() || !justNow ? "" : texts.get("compare.skipped", other, String.join(", ", skipped));
    }
}
