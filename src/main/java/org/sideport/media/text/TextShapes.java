package org.sideport.media.text;

import java.util.ArrayList;
import java.util.List;

/** Still edges that lie as writing does: in lines, dense, with many upright strokes side by side. */
final class TextShapes {

    /** Least height of a line, pixels. */
    private static final int LOWEST = 6;

    /** Largest height of a line or a block of lines, as a part of the picture's. */
    private static final double HIGHEST = 0.25;

    /** Letters of a word are at most so far apart, as a part of the picture's width. */
    private static final double GAP = 1 / 120.0;

    private final StillEdges edges;
    private final int width;
    private final int height;

    private TextShapes(StillEdges edges) {
        this.edges = edges;
        this.width = edges.width();
        this.height = edges.height();
    }

    static List<Box> in(StillEdges edges) {
        TextShapes shapes = new TextShapes(edges);
        List<Box> found = new ArrayList<>();
        for (Box line : lines(shapes.components())) {
            if (shapes.looksWritten(line)) {
                found.add(line);
            }
        }
        return found;
    }

    /** Groups of edges that are close to each other, but for what is far too small or too large. */
    private List<Box> components() {
        int reach = Math.max(2, (int) Math.round(width * GAP));
        boolean[] seen = new boolean[width * height];
        int[] stack = new int[width * height];
        List<Box> found = new ArrayList<>();
        for (int start = 0; start < seen.length; start++) {
            if (seen[start] || !edges.at(start % width, start / width)) {
                continue;
            }
            int depth = 0;
            stack[depth++] = start;
            seen[start] = true;
            Box box = new Box(start % width, start / width, start % width + 1, start / width + 1);
            while (depth > 0) {
                int at = stack[--depth];
                int x = at % width;
                int y = at / width;
                box = box.with(new Box(x, y, x + 1, y + 1));
                for (int ny = Math.max(0, y - 2); ny <= Math.min(height - 1, y + 2); ny++) {
                    for (int nx = Math.max(0, x - reach); nx <= Math.min(width - 1, x + reach); nx++) {
                        int next = ny * width + nx;
                        if (!seen[next] && edges.at(nx, ny)) {
                            seen[next] = true;
                            stack[depth++] = next;
                        }
                    }
                }
            }
            if (box.height() >= LOWEST / 2 && box.height() <= HIGHEST * height) {
                found.add(box);
            }
        }
        return found;
    }

    /** Puts words and letters of one line together. */
    private static List<Box> lines(List<Box> parts) {
        List<Box> lines = new ArrayList<>(parts);
        boolean changed = true;
        while (changed) {
            changed = false;
            for (int i = 0; i < lines.size() && !changed; i++) {
                for (int j = i + 1; j < lines.size() && !changed; j++) {
                    if (lines.get(i).sameLine(lines.get(j))) {
                        lines.set(i, lines.get(i).with(lines.get(j)));
                        lines.remove(j);
                        changed = true;
                    }
                }
            }
        }
        return lines;
    }

    private boolean looksWritten(Box box) {
        if (box.height() < LOWEST
                || box.height() > HIGHEST * height
                || box.width() < 1.5 * box.height()
                || box.width() < 3 * LOWEST) {
            return false;
        }
        int filled = 0;
        int rows = 0;
        int strokes = 0;
        boolean[] columns = new boolean[box.width()];
        for (int y = box.top(); y < box.bottom(); y++) {
            int runs = 0;
            boolean before = false;
            for (int x = box.left(); x < box.right(); x++) {
                boolean edge = edges.at(x, y);
                filled += edge ? 1 : 0;
                runs += edge && !before ? 1 : 0;
                columns[x - box.left()] |= edge;
                before = edge;
            }
            rows += runs > 0 ? 1 : 0;
            strokes += runs;
        }
        int used = 0;
        for (boolean column : columns) {
            used += column ? 1 : 0;
        }
        double density = filled / ((double) box.width() * box.height());
        // a line of capitals has about one letter to 0.7 of its height, and a row cuts one or two strokes of each
        double strokesPerLetter = strokes / (double) box.height() / (box.width() / (0.7 * box.height()));
        return density > 0.12
                && density < 0.9
                && rows > 0.8 * box.height()
                && used > 0.5 * box.width()
                && strokes >= 3 * box.height()
                && strokesPerLetter > 0.55;
    }
}
