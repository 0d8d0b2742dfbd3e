package org.sideport.model;

import org.jspecify.annotations.Nullable;

/**
 * One stretch of a phase or step: the half-open interval {@code [start, end)}.
 *
 * @param phase id of a phase or of a step of the procedure
 * @param end {@code null} while the phase runs on: until the end of the recording, where that is known
 * @param operator whose hands; {@code null} if not recorded
 */
public record PhaseSpan(
        String phase,
        MediaTime start,
        @Nullable MediaTime end,
        @Nullable Operator operator) {

    public PhaseSpan {
        if (phase.isBlank()) {
            throw new IllegalArgumentException("a phase span needs a phase");
        }
        if (end != null && !start.isBefore(end)) {
            throw new InputException(
                    "the span of " + phase + " ends at " + end.toSecondsText() + " s, not after its start at "
                            + start.toSecondsText() + " s",
                    null,
                    "set the end after the start");
        }
    }

    public boolean contains(MediaTime time) {
        return !time.isBefore(start) && (end == null || time.isBefore(end));
    }

    public boolean isOpen() {
        return end == null;
    }

    public PhaseSpan withStart(MediaTime newStart) {
        return new PhaseSpan(phase, newStart, end, operator);
    }

    public PhaseSpan withEnd(@Nullable MediaTime newEnd) {
        return new PhaseSpan(phase, start, newEnd, operator);
    }

    public PhaseSpan withPhase(String newPhase) {
        return new PhaseSpan(newPhase, start, end, operator);
    }

    public PhaseSpan withOperator(@Nullable Operator newOperator) {
        return new PhaseSpan(phase, start, end, newOperator);
    }
}
