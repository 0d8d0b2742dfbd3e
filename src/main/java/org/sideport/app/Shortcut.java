package org.sideport.app;

import java.util.Optional;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyCodeCombination;
import javafx.scene.input.KeyCombination;
import javafx.scene.input.KeyCombination.Modifier;
import javafx.scene.input.KeyEvent;

/** Every key that does something, apart from the phase keys, which the procedure file sets. */
public enum Shortcut {
    PLAY_OR_PAUSE(Scope.PICTURE, KeyCode.SPACE),
    NEXT_FRAME(Scope.PICTURE, KeyCode.RIGHT),
    PREVIOUS_FRAME(Scope.PICTURE, KeyCode.LEFT),
    FORWARD_SECOND(Scope.PICTURE, KeyCode.RIGHT, KeyCombination.SHIFT_DOWN),
    BACK_SECOND(Scope.PICTURE, KeyCode.LEFT, KeyCombination.SHIFT_DOWN),
    FORWARD_FIVE(Scope.PICTURE, KeyCode.RIGHT, KeyCombination.SHORTCUT_DOWN),
    BACK_FIVE(Scope.PICTURE, KeyCode.LEFT, KeyCombination.SHORTCUT_DOWN),
    TO_START(Scope.PICTURE, KeyCode.HOME),
    TO_END(Scope.PICTURE, KeyCode.END),
    FASTER(Scope.PICTURE, KeyCode.UP, KeyCombination.SHIFT_DOWN),
    SLOWER(Scope.PICTURE, KeyCode.DOWN, KeyCombination.SHIFT_DOWN),
    LOOP(Scope.PICTURE, KeyCode.L, KeyCombination.SHORTCUT_DOWN),
    SKIP_IDLE(Scope.PICTURE, KeyCode.I, KeyCombination.SHORTCUT_DOWN),
    CLOSER(Scope.PICTURE, KeyCode.EQUALS, KeyCombination.SHORTCUT_DOWN),
    WIDER(Scope.PICTURE, KeyCode.MINUS, KeyCombination.SHORTCUT_DOWN),
    FULL_PICTURE(Scope.PICTURE, KeyCode.F11),

    REFINE(Scope.REVIEW, KeyCode.R, KeyCombination.SHORTCUT_DOWN),
    MEASURED_LANES(Scope.REVIEW, KeyCode.L, KeyCombination.SHORTCUT_DOWN, KeyCombination.SHIFT_DOWN),
    OTHER_PHASE(Scope.REVIEW, KeyCode.E, KeyCombination.SHORTCUT_DOWN),
    PHASE_KEYS(Scope.REVIEW, KeyCode.K, KeyCombination.SHORTCUT_DOWN),
    EVENT(Scope.REVIEW, KeyCode.M),
    COMMENT_HERE(Scope.REVIEW, KeyCode.M, KeyCombination.SHIFT_DOWN),
    /** No modifier: it is held, and buttons take no click while one is down. */
    SPEAK(Scope.REVIEW, KeyCode.F6),
    MEASURE_HERE(Scope.REVIEW, KeyCode.M, KeyCombination.SHORTCUT_DOWN),
    HANDS(Scope.REVIEW, KeyCode.H),
    NEXT_BOUNDARY(Scope.REVIEW, KeyCode.PAGE_DOWN),
    PREVIOUS_BOUNDARY(Scope.REVIEW, KeyCode.PAGE_UP),
    DELETE(Scope.REVIEW, KeyCode.DELETE),
    UNDO(Scope.REVIEW, KeyCode.Z, KeyCombination.SHORTCUT_DOWN),
    REDO(Scope.REVIEW, KeyCode.Z, KeyCombination.SHORTCUT_DOWN, KeyCombination.SHIFT_DOWN),

    NEXT_ITEM_ON_LANE(Scope.TIMELINE, KeyCode.RIGHT, KeyCombination.ALT_DOWN),
    PREVIOUS_ITEM_ON_LANE(Scope.TIMELINE, KeyCode.LEFT, KeyCombination.ALT_DOWN),
    EXTEND_FORWARD(Scope.TIMELINE, KeyCode.RIGHT, KeyCombination.ALT_DOWN, KeyCombination.SHIFT_DOWN),
    EXTEND_BACK(Scope.TIMELINE, KeyCode.LEFT, KeyCombination.ALT_DOWN, KeyCombination.SHIFT_DOWN),
    LANE_BELOW(Scope.TIMELINE, KeyCode.DOWN, KeyCombination.ALT_DOWN),
    LANE_ABOVE(Scope.TIMELINE, KeyCode.UP, KeyCombination.ALT_DOWN),
    SELECT_LANE(Scope.TIMELINE, KeyCode.A, KeyCombination.SHORTCUT_DOWN),
    SELECT_NONE(Scope.TIMELINE, KeyCode.ESCAPE),
    START_LATER(Scope.TIMELINE, KeyCode.PERIOD),
    START_EARLIER(Scope.TIMELINE, KeyCode.COMMA),
    END_LATER(Scope.TIMELINE, KeyCode.PERIOD, KeyCombination.SHIFT_DOWN),
    END_EARLIER(Scope.TIMELINE, KeyCode.COMMA, KeyCombination.SHIFT_DOWN),
    MOVE_LATER(Scope.TIMELINE, KeyCode.PERIOD, KeyCombination.SHORTCUT_DOWN),
    MOVE_EARLIER(Scope.TIMELINE, KeyCode.COMMA, KeyCombination.SHORTCUT_DOWN),
    SPLIT(Scope.TIMELINE, KeyCode.P, KeyCombination.SHORTCUT_DOWN),
    JOIN(Scope.TIMELINE, KeyCode.J, KeyCombination.SHORTCUT_DOWN),
    RELABEL(Scope.TIMELINE, KeyCode.F2),
    PAGE_ON(Scope.TIMELINE, KeyCode.PAGE_DOWN, KeyCombination.SHIFT_DOWN),
    PAGE_BACK(Scope.TIMELINE, KeyCode.PAGE_UP, KeyCombination.SHIFT_DOWN),
    WHOLE(Scope.TIMELINE, KeyCode.DIGIT0, KeyCombination.SHORTCUT_DOWN),
    FRAMES(Scope.TIMELINE, KeyCode.DIGIT1, KeyCombination.SHORTCUT_DOWN),
    SHOW_SELECTED(Scope.TIMELINE, KeyCode.DIGIT2, KeyCombination.SHORTCUT_DOWN),

    BOUNDARY_LATER(Scope.REFINE, KeyCode.RIGHT),
    BOUNDARY_EARLIER(Scope.REFINE, KeyCode.LEFT),
    BOUNDARY_MUCH_LATER(Scope.REFINE, KeyCode.RIGHT, KeyCombination.SHIFT_DOWN),
    BOUNDARY_MUCH_EARLIER(Scope.REFINE, KeyCode.LEFT, KeyCombination.SHIFT_DOWN),
    CANDIDATE_LATER(Scope.REFINE, KeyCode.DOWN),
    CANDIDATE_EARLIER(Scope.REFINE, KeyCode.UP),
    CONFIRM(Scope.REFINE, KeyCode.ENTER),
    REFINE_BACK(Scope.REFINE, KeyCode.BACK_SPACE),
    REFINE_SKIP(Scope.REFINE, KeyCode.N),
    REFINE_LEAVE(Scope.REFINE, KeyCode.ESCAPE),

    NEXT_ITEM(Scope.MARKING, KeyCode.DOWN),
    PREVIOUS_ITEM(Scope.MARKING, KeyCode.UP),
    DONE_BY_TRAINER(Scope.MARKING, KeyCode.T),
    NOT_VISIBLE(Scope.MARKING, KeyCode.V),
    NOT_PERFORMED(Scope.MARKING, KeyCode.P),
    CLEAR_MARK(Scope.MARKING, KeyCode.BACK_SPACE),
    NEXT_MISSING(Scope.MARKING, KeyCode.N),
    OVERALL(Scope.MARKING, KeyCode.O),
    ACTIONS(Scope.MARKING, KeyCode.A),
    MARKING_AS(Scope.MARKING, KeyCode.U, KeyCombination.SHORTCUT_DOWN),
    MARKING_BY(Scope.MARKING, KeyCode.B, KeyCombination.SHORTCUT_DOWN),
    SIGN(Scope.MARKING, KeyCode.ENTER, KeyCombination.SHORTCUT_DOWN),
    AMEND(Scope.MARKING, KeyCode.M, KeyCombination.SHORTCUT_DOWN),
    COMMENT(Scope.MARKING, KeyCode.ENTER),
    EVIDENCE(Scope.MARKING, KeyCode.E),
    JUMP(Scope.MARKING, KeyCode.G),

    NEXT_PHASE(Scope.COMPARE, KeyCode.PAGE_DOWN),
    PREVIOUS_PHASE(Scope.COMPARE, KeyCode.PAGE_UP),
    OTHER_SIDE(Scope.COMPARE, KeyCode.S),
    ALIGNMENT(Scope.COMPARE, KeyCode.A),
    SWAP(Scope.COMPARE, KeyCode.X),

    RUBRIC_SAVE(Scope.RUBRIC, KeyCode.S, KeyCombination.SHORTCUT_DOWN),
    RUBRIC_UNDO(Scope.RUBRIC, KeyCode.Z, KeyCombination.SHORTCUT_DOWN),
    RUBRIC_REDO(Scope.RUBRIC, KeyCode.Z, KeyCombination.SHORTCUT_DOWN, KeyCombination.SHIFT_DOWN),
    RUBRIC_NEXT(Scope.RUBRIC, KeyCode.DOWN, KeyCombination.ALT_DOWN),
    RUBRIC_PREVIOUS(Scope.RUBRIC, KeyCode.UP, KeyCombination.ALT_DOWN),
    RUBRIC_ITEM(Scope.RUBRIC, KeyCode.ENTER, KeyCombination.SHORTCUT_DOWN),
    RUBRIC_FAULT(Scope.RUBRIC, KeyCode.F4),

    SHORTCUTS(Scope.WINDOW, KeyCode.F1),
    TO_CASES(Scope.WINDOW, KeyCode.DIGIT1, KeyCombination.ALT_DOWN),
    TO_REVIEW(Scope.WINDOW, KeyCode.DIGIT2, KeyCombination.ALT_DOWN),
    TO_MARKING(Scope.WINDOW, KeyCode.DIGIT3, KeyCombination.ALT_DOWN),
    TO_COMPARE(Scope.WINDOW, KeyCode.DIGIT4, KeyCombination.ALT_DOWN),
    TO_PROGRESS(Scope.WINDOW, KeyCode.DIGIT5, KeyCombination.ALT_DOWN),
    TO_PROGRAMME(Scope.WINDOW, KeyCode.DIGIT6, KeyCombination.ALT_DOWN),
    SETTINGS(Scope.WINDOW, KeyCode.F10),
    LIGHT_OR_DARK(Scope.WINDOW, KeyCode.F9),
    JOBS(Scope.WINDOW, KeyCode.F8),
    DISMISS_NOTICE(Scope.WINDOW, KeyCode.F7),
    NOTICE_DETAILS(Scope.WINDOW, KeyCode.F7, KeyCombination.SHIFT_DOWN),
    SECOND_PICTURE(Scope.WINDOW, KeyCode.F12),
    PICTURE_CLOSER(Scope.WINDOW, KeyCode.EQUALS, KeyCombination.ALT_DOWN),
    PICTURE_WIDER(Scope.WINDOW, KeyCode.MINUS, KeyCombination.ALT_DOWN),
    PICTURE_WHOLE(Scope.WINDOW, KeyCode.DIGIT0, KeyCombination.ALT_DOWN),
    ABOUT(Scope.WINDOW, KeyCode.F1, KeyCombination.SHIFT_DOWN),
    FIRST_STEPS(Scope.WINDOW, KeyCode.F1, KeyCombination.SHORTCUT_DOWN),
    NEXT_CONTROL(Scope.WINDOW, KeyCode.F3),
    PREVIOUS_CONTROL(Scope.WINDOW, KeyCode.F3, KeyCombination.SHIFT_DOWN);

    /** Where a key works. {@link #PICTURE} is wherever a recording is watched. */
    public enum Scope {
        PICTURE,
        REVIEW,
        /** Wherever a timeline is, but for its edits where tags are only looked at. */
        TIMELINE,
        /** While boundaries are refined in Review: before all other keys there. */
        REFINE,
        MARKING,
        COMPARE,
        /** Where a rubric is written. */
        RUBRIC,
        WINDOW
    }

    private final Scope scope;

    @SuppressWarnings("ImmutableEnumChecker") // a key combination cannot be changed
    private final KeyCodeCombination keys;

    Shortcut(Scope scope, KeyCode code, Modifier... modifiers) {
        this.scope = scope;
        this.keys = new KeyCodeCombination(code, modifiers);
    }

    public Scope scope() {
        return scope;
    }

    public KeyCombination keys() {
        return keys;
    }

    /** Key of the text that says what it does. */
    public String textKey() {
        return "shortcut." + name();
    }

    /** The keys as written on a button or in a list. */
    public String keysText() {
        return keys.getDisplayText();
    }

    /** The shortcut of this scope that the event is, if any. */
    public static Optional<Shortcut> of(KeyEvent event, Scope scope) {
        for (Shortcut shortcut : values()) {
            if (shortcut.scope == scope && shortcut.keys.match(event)) {
                return Optional.of(shortcut);
            }
        }
        return Optional.empty();
    }
}
