package org.sideport.workflow;

import java.nio.file.Path;
import java.util.List;
import org.sideport.media.FrameIndexCache;
import org.sideport.media.trace.Finding;
import org.sideport.media.trace.Findings;
import org.sideport.media.trace.Proposal;
import org.sideport.media.trace.Proposals;
import org.sideport.media.trace.TraceComputer;
import org.sideport.media.trace.TraceFile;
import org.sideport.media.trace.Traces;
import org.sideport.model.Progress;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Measures the traces of a recording once and keeps them in the workspace. */
public final class RecordingTraces {

    private final Workspace workspace;

    public RecordingTraces(Workspace workspace) {
        this.workspace = workspace;
    }

    /** Traces with what is found and proposed on them, for a person to look at. */
    public record Result(Traces traces, List<Finding> findings, List<Proposal> proposals) {
        public Result {
            findings = List.copyOf(findings);
            proposals = List.copyOf(proposals);
        }
    }

    /**
     * The kept traces, or measured now, which takes about as long as decoding the whole recording.
     *
     * @param recording with its files where they are
     * @throws org.sideport.model.InputException if a file is missing or cannot be decoded, or nothing can be kept
     * @throws java.util.concurrent.CancellationException if the progress is cancelled; nothing is kept then
     */
    public Result of(Recording recording, Progress progress) {
        Access.require(workspace, Permission.SEE_CASE);
        List<Path> files = recording.segments().stream().map(Segment::file).toList();
        Traces traces = TraceFile.readOrCompute(
                workspace.indexDir(),
                files,
                new FrameIndexCache(workspace.indexDir()),
                TraceComputer.USUAL_HZ,
                progress);
        return new Result(traces, Findings.of(traces), Proposals.of(traces));
    }
}
