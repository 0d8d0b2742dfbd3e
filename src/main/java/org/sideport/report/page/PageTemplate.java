package org.sideport.report.page;

import io.pebbletemplates.pebble.PebbleEngine;
import io.pebbletemplates.pebble.loader.ClasspathLoader;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;

/** The templates: every text is escaped, and a name that a template does not find is a fault. */
final class PageTemplate {

    private final PebbleEngine engine;

    PageTemplate() {
        ClasspathLoader loader = new ClasspathLoader(PageTemplate.class.getClassLoader());
        loader.setPrefix("org/sideport/report/page");
        loader.setSuffix(".peb");
        loader.setCharset(StandardCharsets.UTF_8.name());
        engine = new PebbleEngine.Builder()
                .loader(loader)
                .autoEscaping(true)
                .defaultEscapingStrategy("html")
                .strictVariables(true)
                .build();
    }

    String fill(String name, Map<String, Object> values, Locale locale) {
        StringWriter out = new StringWriter();
        try {
            engine.getTemplate(name).evaluate(out, values, locale);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return PlainText.of(out.toString());
    }

    /** A style sheet or script beside the templates. */
    static String resource(String name) {
        try (InputStream in = Objects.requireNonNull(PageTemplate.class.getResourceAsStream(name), name)) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8).replace("\r", "");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
