package org.sideport.store;

import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import org.sideport.model.PicturePoint;

/** Places on a picture as one text: {@code x y;x y}, each number as exactly as it was. */
final class PointText {

    private PointText() {}

    static String write(List<PicturePoint> points) {
        return points.stream().map(p -> p.x() + " " + p.y()).collect(Collectors.joining(";"));
    }

    static List<PicturePoint> read(String text) {
        return Arrays.stream(text.split(";"))
                .map(pair -> pair.split(" "))
                .map(xy -> new PicturePoint(Double.parseDouble(xy[0]), Double.parseDouble(xy[1])))
                .toList();
    }
}
