package org.sideport.app.frame;

import java.util.EnumMap;
import java.util.Map;
import java.util.function.Supplier;
import javafx.scene.Scene;
import javafx.scene.input.KeyEvent;
import org.sideport.app.AppContext;
import org.sideport.app.Texts;
import org.sideport.app.compare.CompareView;
import org.sideport.app.marking.MarkingView;
import org.sideport.app.marking.MarkingViewModel;
import org.sideport.app.programme.ProgrammeView;
import org.sideport.app.review.CutsViewModel;
import org.sideport.app.review.PictureTools;
import org.sideport.app.review.ReviewView;
import org.sideport.app.review.ReviewViewModel;

/**
 * The screens behind the first one, and what follows them. All are made together and before any case is open, since they
 * hear of a case when it opens; so the first picture of the window need not wait for them.
 */
final class LaterScreens {

    private final Map<Destination, Screen> screens = new EnumMap<>(Destination.class);
    private final ReviewView review;
    private final PlaceKeeper keeper;
    private final OneHand oneHand;

    /** @param where the id of the place where the user is */
    LaterScreens(AppContext context, Navigator navigator, Scene scene, Supplier<String> where) {
        Texts texts = context.texts();
        ReviewViewModel reviewing = context.reviewViewModel();
        PictureTools tools = context.pictureTools(reviewing);
        CutsViewModel cuts = context.cutsViewModel(reviewing);
        review = new ReviewView(
                reviewing,
                cuts,
                context.besides(reviewing, cuts),
                tools,
                context.recordingLanes(),
                context.refineBar(reviewing),
                texts,
                navigator);
        MarkingViewModel marking = context.markingViewModel();
        screens.put(Destination.REVIEW, review);
        screens.put(Destination.MARKING, new MarkingView(marking, context.gapPane(marking), texts, navigator));
        screens.put(
                Destination.COMPARE,
                new CompareView(context.compareViewModel(), context.stackViewModel(), texts, navigator));
        screens.put(Destination.PROGRESS, context.progressScreen(navigator));
        screens.put(
                Destination.PROGRAMME,
                new ProgrammeView(
                        () -> context.programmePanes(navigator),
                        // hints belong to the part that gave them
                        () -> context.notices().clearPassing()));
        oneHand = new OneHand(context.settings(), reviewing, context.notices());
        keeper = new PlaceKeeper(
                context.place(), context.current(), context.desk(), review.timeline(), tools.comments(), scene, where);
    }

    Map<Destination, Screen> screens() {
        return Map.copyOf(screens);
    }

    /** Brings what was said to the front, in Review. */
    void showComments() {
        review.showComments();
    }

    /** Remembers where the user is. */
    PlaceKeeper keeper() {
        return keeper;
    }

    /** @return true if the key meant something for who works with one hand or a pedal */
    boolean oneHand(KeyEvent event, Destination at) {
        return switch (at) {
            case CASES, PROGRESS, PROGRAMME -> false;
            case REVIEW, MARKING, COMPARE -> oneHand.handle(event, at == Destination.REVIEW);
        };
    }
}
