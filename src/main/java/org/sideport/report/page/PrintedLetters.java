package org.sideport.report.page;

import java.awt.Font;
import java.awt.FontFormatException;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import org.w3c.dom.Text;

/**
 * What a paper's letters can show. The others (Chinese, Arabic, Devanagari and the like; all that is written from right to
 * left, which the paper would set the wrong way round) become boxes, and at the end of the paper stands which letters they
 * were and where: nothing is lost silently.
 */
final class PrintedLetters {

    private static final int BOX = 0x25A1;
    private static final int LONGEST_PLACE = 60;

    private final List<Font> faces;

    /** @param files of the faces, by name as {@link Paper#font} knows them */
    PrintedLetters(List<String> files) {
        faces = files.stream().map(PrintedLetters::face).toList();
    }

    private static Font face(String file) {
        try (InputStream in = Paper.font(file)) {
            return Font.createFont(Font.TRUETYPE_FONT, in);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (FontFormatException e) {
            throw new IllegalStateException(file, e);
        }
    }

    boolean shows(int letter) {
        if (Character.isWhitespace(letter) || Character.isSpaceChar(letter)) {
            return true;
        }
        boolean backwards =
                switch (Character.getDirectionality(letter)) {
                    case Character.DIRECTIONALITY_RIGHT_TO_LEFT, Character.DIRECTIONALITY_RIGHT_TO_LEFT_ARABIC -> true;
                    default -> false;
                };
        return !backwards && faces.stream().anyMatch(f -> f.canDisplay(letter));
    }

    /** Puts boxes into a page's text, and says so in a section at the end of its main part. */
    void replace(Document page, PageWords words) {
        Map<String, Set<Integer>> places = new LinkedHashMap<>();
        Element body = (Element) page.getElementsByTagName("body").item(0);
        walk(body, new StringBuilder(), places);
        if (places.isEmpty()) {
            return;
        }
        Element section = page.createElement("section");
        section.setAttribute("class", "letters");
        section.appendChild(with(page, "h2", words.get("letters")));
        section.appendChild(with(page, "p", words.get("letters.what")));
        Element list = page.createElement("ul");
        places.forEach(
                (place, letters) -> list.appendChild(with(page, "li", words.get("letters.at", place, named(letters)))));
        section.appendChild(list);
        page.getElementsByTagName("main").item(0).appendChild(section);
    }

    private static Element with(Document page, String tag, String text) {
        Element made = page.createElement(tag);
        made.setTextContent(text);
        return made;
    }

    private static String named(Set<Integer> letters) {
        return letters.stream()
                .map(c -> String.format("U+%04X %s", c, Character.getName(c)))
                .collect(Collectors.joining(", "));
    }

    /** @param heading the last one on the way, which says where something stands */
    private void walk(Node node, StringBuilder heading, Map<String, Set<Integer>> places) {
        List<Node> children = new ArrayList<>();
        for (Node child = node.getFirstChild(); child != null; child = child.getNextSibling()) {
            children.add(child);
        }
        for (Node child : children) {
            if (child instanceof Text text) {
                shown(text, heading.toString(), places);
            } else {
                walk(child, heading, places);
                if (child.getNodeName().matches("h[1-3]")) {
                    heading.setLength(0);
                    heading.append(child.getTextContent().strip().replaceAll("\\s+", " "));
                }
            }
        }
    }

    private void shown(Text text, String heading, Map<String, Set<Integer>> places) {
        String whole = text.getData();
        if (whole.codePoints().allMatch(this::shows)) {
            return;
        }
        StringBuilder shown = new StringBuilder();
        Set<Integer> missing = new TreeSet<>();
        whole.codePoints().forEach(c -> {
            if (shows(c)) {
                shown.appendCodePoint(c);
            } else if (Character.getType(c) != Character.FORMAT) {
                missing.add(c);
                shown.appendCodePoint(BOX);
            }
        });
        text.setData(shown.toString());
        if (!missing.isEmpty()) {
            String words = shown.toString().strip().replaceAll("\\s+", " ");
            String cut = words.length() > LONGEST_PLACE ? words.substring(0, LONGEST_PLACE) + " …" : words;
            places.computeIfAbsent((heading.isEmpty() ? "" : heading + ": ") + cut, p -> new TreeSet<>())
                    .addAll(missing);
        }
    }
}
