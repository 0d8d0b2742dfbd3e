package org.sideport.chart;

import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * A chart as data: what is drawn, not how.
 *
 * @param id for names of files: lower-case letters, digits, minus and underscore
 * @param title above the chart
 * @param layers the lowest first, with distinct names
 * @param note under the chart: what it rests on (n), sources, cautions; may be empty
 * @param sentence what it shows, for those who do not see it
 */
public record Chart(String id, String title, Axis x, Axis y, List<Layer> layers, String note, String sentence) {

    public Chart {
        layers = List.copyOf(layers);
        if (!id.matches("[a-z0-9_-]+")) {
            throw new IllegalArgumentException("\"" + id + "\" cannot be a name of a chart");
        }
        if (sentence.isBlank()) {
            throw new IllegalArgumentException("chart " + id + " does not say what it shows");
        }
        Set<String> names = new HashSet<>();
        for (Layer layer : layers) {
            if (!names.add(layer.name())) {
                throw new IllegalArgumentException("chart " + id + " has two layers named " + layer.name());
            }
        }
    }

    /** The drawing alone, where title and note stand beside it as words. */
    public Chart bare() {
        return new Chart(id, "", x, y, layers, "", sentence);
    }
}
