package org.sideport.app.frame;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import javafx.geometry.Rectangle2D;
import org.junit.jupiter.api.Test;

class WindowPlaceTest {

    private static final Rectangle2D LEFT = new Rectangle2D(0, 0, 1280, 800);
    private static final Rectangle2D RIGHT = new Rectangle2D(1280, 0, 1920, 1080);

    private static Rectangle2D fitted(Rectangle2D was, Rectangle2D... screens) {
        return WindowPlace.fitted(was, false, LEFT, List.of(screens));
    }

    @Test
    void aWindowOnTheSecondScreenStaysThere() {
        Rectangle2D was = new Rectangle2D(1500, 100, 1200, 700);
        assertThat(fitted(was, LEFT, RIGHT)).isEqualTo(was);
    }

    @Test
    void aWindowOnAScreenThatWasUnpluggedComesToTheMiddleOfTheFirst() {
        // (1280 - 1200) / 2 = 40, (800 - 700) / 2 = 50
        assertThat(fitted(new Rectangle2D(1500, 100, 1200, 700), LEFT)).isEqualTo(new Rectangle2D(40, 50, 1200, 700));
    }

    @Test
    void aWindowThatIsLargerThanItsScreenIsMadeSmaller() {
        assertThat(fitted(new Rectangle2D(0, 0, 1600, 1000), LEFT)).isEqualTo(LEFT);
    }

    @Test
    void aWindowThatStandsOutIsPulledIn() {
        assertThat(fitted(new Rectangle2D(900, -30, 640, 480), LEFT)).isEqualTo(new Rectangle2D(640, 0, 640, 480));
    }
}
