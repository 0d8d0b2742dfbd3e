package org.sideport.workflow;

import java.util.List;
import org.sideport.media.trace.Finding;
import org.sideport.media.trace.FindingKind;
import org.sideport.model.Cut;
import org.sideport.model.CutKind;
import org.sideport.model.CutState;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;
import org.sideport.model.Recording;
import org.sideport.model.SurgicalCase;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Finds cuts in the recording of a case and keeps what people decide about them. */
public final class RecordingCuts {

    /** How far from a cut a time may be given by a person who means it, microseconds. */
    private static final long NEAR_US = 500_000;

    private final Workspace workspace;

    public RecordingCuts(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * All cuts of a case in the order of time.
     *
     * @throws InputException if there is no such case
     */
    public List<Cut> of(String caseCode) {
        return workspace.read(stores -> {
            Access.require(stores, Permission.SEE_CASE, caseCode);
            return stores.cuts().of(caseCode);
        });
    }

    /**
     * Looks through the pictures for jumps of the scene and proposes those that are not known yet; decisions stay.
     *
     * @return all cuts of the case
     * @throws InputException if the case has no recording or a file cannot be found or read
     * @throws java.util.concurrent.CancellationException if the progress is cancelled; nothing is kept then
     */
    public List<Cut> find(String caseCode, Progress progress) {
        SurgicalCase wanted = workspace.read(stores -> {
            Access.require(stores, Permission.TAG, caseCode);
            return stores.cases().get(caseCode);
        });
        Recording recording = new OpenRecording(workspace).locate(wanted, List.of(), progress);
        List<Cut> found = new RecordingTraces(workspace)
                .of(recording, progress).findings().stream()
                        .filter(f -> f.kind() == FindingKind.JUMP_CUT)
                        .map(RecordingCuts::cut)
                        .toList();
        return propose(caseCode, found);
    }

    private static Cut cut(Finding jump) {
        return Cut.proposed(jump.start(), jump.end(), CutKind.INSIDE_FILE, jump.evidence());
    }

    /** Keeps what is not known yet. @return all cuts of the case */
    List<Cut> propose(String caseCode, List<Cut> found) {
        return workspace.write(stores -> {
            Access.require(stores, Permission.TAG, caseCode);
            List<Cut> known = stores.cuts().of(caseCode);
            found.stream()
                    .filter(f -> known.stream().noneMatch(f::isSamePlaceAs))
                    .forEach(f -> stores.cuts().save(caseCode, f));
            return stores.cuts().of(caseCode);
        });
    }

    /**
     * Accepts or dismisses the cut at this time, or takes a decision back.
     *
     * @param person code of the one who decides; nobody's where it becomes a proposal again
     * @throws InputException if there is no such case, or no cut within half a second of the time
     */
    public Cut decide(String caseCode, MediaTime at, CutState decision, String person) {
        String who = decision == CutState.PROPOSED ? "" : Codes.require("a person", person);
        if (!who.isEmpty()) {
            Access.requireOwn(workspace.caller(), who);
        }
        return workspace.write(stores -> {
            Access.require(stores, Permission.TAG, caseCode);
            Cut decided = near(stores, caseCode, at).decided(decision, who);
            stores.cuts().save(caseCode, decided);
            return decided;
        });
    }

    private static Cut near(Stores stores, String caseCode, MediaTime at) {
        List<Cut> cuts = stores.cuts().of(caseCode);
        return cuts.stream()
                .filter(c -> distance(c, at) <= NEAR_US)
                .min((a, b) -> Long.compare(distance(a, at), distance(b, at)))
                .orElseThrow(() -> new InputException(
                        "there is no cut of case " + caseCode + " at " + at.toClockText(),
                        null,
                        cuts.isEmpty()
                                ? "look for cuts first: sideport cuts find --case " + caseCode
                                : "its cuts are at "
                                        + String.join(
                                                ", ",
                                                cuts.stream()
                                                        .map(c -> c.to().toClockText())
                                                        .toList())));
    }

    private static long distance(Cut cut, MediaTime at) {
        if (at.isBefore(cut.from())) {
            return cut.from().micros() - at.micros();
        }
        return Math.max(0, at.micros() - cut.to().micros());
    }

    /**
     * Keeps a cut that a person saw, as accepted.
     *
     * @throws InputException if there is no such case, or the time lies outside its recording
     */
    public Cut add(String caseCode, MediaTime at, String why, String person) {
        String who = Codes.require("a person", person);
        Access.requireOwn(workspace.caller(), who);
        return workspace.write(stores -> {
            Access.require(stores, Permission.TAG, caseCode);
            Recording recording = stores.cases().get(caseCode).recording();
            if (recording == null || !at.isBefore(recording.duration())) {
                throw new InputException(
                        "case " + caseCode + " has no picture at " + at.toClockText(),
                        null,
                        recording == null
                                ? "it has no recording"
                                : "its recording ends at "
                                        + recording.duration().toClockText());
            }
            Cut seen = new Cut(at, at, CutKind.SEEN, CutState.ACCEPTED, why.strip(), who);
            stores.cuts().save(caseCode, seen);
            return seen;
        });
    }
}
