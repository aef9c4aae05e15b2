package org.axtrial.report;

import io.pebbletemplates.pebble.PebbleEngine;
import io.pebbletemplates.pebble.attributes.methodaccess.NoOpMethodAccessValidator;
import io.pebbletemplates.pebble.loader.ClasspathLoader;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Map;

/** The templates and style sheets beside this class. */
final class Templates {

    private static final String FOLDER = "org/axtrial/report";

    private Templates() {}

    /**
     * A filled template; every text is escaped unless the template says otherwise.
     *
     * @throws io.pebbletemplates.pebble.error.PebbleException if the template asks for what is not there
     */
    static String fill(String name, Map<String, Object> values) throws IOException {
        ClasspathLoader loader = new ClasspathLoader(Templates.class.getClassLoader());
        loader.setPrefix(FOLDER);
        loader.setSuffix(".peb");
        PebbleEngine engine = new PebbleEngine.Builder()
                .loader(loader)
                .strictVariables(true)
                .autoEscaping(true)
                // That of the engine first makes a table of all names of characters that HTML knows.
                .addEscapingStrategy("text", Plot::escape)
                .defaultEscapingStrategy("text")
                .defaultLocale(Locale.ROOT)
                .methodAccessValidator(new NoOpMethodAccessValidator())
                .build();
        StringWriter out = new StringWriter();
        engine.getTemplate(name).evaluate(out, values);
        return Words.clean(out.toString());
    }

    static String resource(String name) throws IOException {
        try (InputStream in = Templates.class.getResourceAsStream(name)) {
            if (in == null) {
                throw new IOException("the program is incomplete: " + FOLDER + "/" + name + " is missing");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }
}
