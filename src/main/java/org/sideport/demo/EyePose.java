package org.sideport.demo;

import org.jspecify.annotations.Nullable;

/**
 * Where everything is in one frame.
 *
 * @param centreX limbus centre, display pixels
 * @param centreY limbus centre, display pixels
 * @param scale display pixels per mm
 * @param main instrument of the working hand, or {@code null} if none is in view
 * @param second instrument of the other hand, or {@code null}
 */
record EyePose(
        double centreX,
        double centreY,
        double scale,
        @Nullable Held main,
        @Nullable Held second) {

    /**
     * @param x tip, mm right of the limbus centre
     * @param y tip, mm below the limbus centre
     * @param from direction in which its handle lies, seen from the eye, radians
     * @param open of forceps: 0 closed, 1 open; of an injector: how far it is pushed
     */
    record Held(Tool tool, double x, double y, double from, double open) {

        Held withHandle(double direction) {
            return new Held(tool, x, y, direction, open);
        }

        Held at(double newX, double newY) {
            return new Held(tool, newX, newY, from, open);
        }
    }

    double screenX(double mm) {
        return centreX + mm * scale;
    }

    double screenY(double mm) {
        return centreY + mm * scale;
    }
}
