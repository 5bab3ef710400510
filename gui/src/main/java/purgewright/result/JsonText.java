package purgewright.result;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.Map;

/** Writes one JSON object in our layout. The streaming writer alone: a short command has no time for data binding. */
final class JsonText {
    /** Version of the result's layout. */
    static final int LAYOUT = 1;

    private static final JsonFactory FACTORY = new JsonFactory();

    private final JsonGenerator generator;

    private JsonText(JsonGenerator generator) {
        this.generator = generator;
    }

    /** What fills an object. */
    @FunctionalInterface
    interface Body {
        void write(JsonText json) throws IOException;
    }

    /** The text of an object, two-space indent, line feeds everywhere, no line end after it. */
    static String object(Body body) {
        StringWriter text = new StringWriter();
        DefaultIndenter indent = new DefaultIndenter("  ", "\n");
        DefaultPrettyPrinter printer = new DefaultPrettyPrinter();
        printer.indentObjectsWith(indent);
        printer.indentArraysWith(indent);
        try (JsonGenerator generator = FACTORY.createGenerator(text)) {
            generator.setPrettyPrinter(printer);
            generator.writeStartObject();
            body.write(new JsonText(generator));
            generator.writeEndObject();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return text.toString();
    }

    JsonText field(String name, String value) throws IOException {
        generator.writeFieldName(name);
        if (value == null) {
            generator.writeNull();
        } else {
            generator.writeString(value);
        }
        return this;
    }

    /** JSON knows no NaN: what is not known is null. */
    JsonText field(String name, double value) throws IOException {
        generator.writeFieldName(name);
        number(value);
        return this;
    }

    JsonText field(String name, int value) throws IOException {
        generator.writeNumberField(name, value);
        return this;
    }

    JsonText field(String name, long value) throws IOException {
        generator.writeNumberField(name, value);
        return this;
    }

    JsonText field(String name, boolean value) throws IOException {
        generator.writeBooleanField(name, value);
        return this;
    }

    JsonText field(String name, Map<String, Double> values) throws IOException {
        generator.writeObjectFieldStart(name);
        for (Map.Entry<String, Double> entry : values.entrySet()) {
            field(entry.getKey(), entry.getValue());
        }
        generator.writeEndObject();
        return this;
    }

    JsonText object(String name, Body body) throws IOException {
        generator.writeObjectFieldStart(name);
        body.write(this);
        generator.writeEndObject();
        return this;
    }

    /** What writes one element of an array. */
    @FunctionalInterface
    interface Element<T> {
        void write(JsonText json, T value) throws IOException;
    }

    JsonText array(String name, Iterable<Double> values) throws IOException {
        generator.writeArrayFieldStart(name);
        for (double value : values) {
            number(value);
        }
        generator.writeEndArray();
        return this;
    }

    JsonText longs(String name, Iterable<Long> values) throws IOException {
        generator.writeArrayFieldStart(name);
        for (long value : values) {
            generator.writeNumber(value);
        }
        generator.writeEndArray();
        return this;
    }

    JsonText rows(String name, Iterable<double[]> rows) throws IOException {
        generator.writeArrayFieldStart(name);
        for (double[] row : rows) {
            generator.writeStartArray();
            for (double value : row) {
                number(value);
            }
            generator.writeEndArray();
        }
        generator.writeEndArray();
        return this;
    }

    JsonText strings(String name, Iterable<String> values) throws IOException {
        generator.writeArrayFieldStart(name);
        for (String value : values) {
            generator.writeString(value);
        }
        generator.writeEndArray();
        return this;
    }

    <T> JsonText objects(String name, Iterable<T> values, Element<T> element) throws IOException {
        generator.writeArrayFieldStart(name);
        for (T value : values) {
            generator.writeStartObject();
            element.write(this, value);
            generator.writeEndObject();
        }
        generator.writeEndArray();
        return this;
    }

    private void number(double value) throws IOException {
        if (Double.isFinite(value)) {
            generator.writeNumber(value);
        } else {
            generator.writeNull();
        }
    }
}
