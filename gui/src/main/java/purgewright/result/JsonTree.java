package purgewright.result;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Reads one of our own result files: maps, lists, texts, numbers as typed, booleans, null. */
final class JsonTree {
    /** A case of 16 MB as text, and room for numbers around it. */
    private static final int LONGEST_TEXT = 40_000_000;

    private static final JsonFactory FACTORY = JsonFactory.builder()
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .streamReadConstraints(StreamReadConstraints.builder()
                    .maxNestingDepth(16)
                    .maxStringLength(LONGEST_TEXT)
                    .build())
            .build();

    private JsonTree() {}

    /** @throws IOException for what is no JSON object */
    static Map<String, Object> read(String text) throws IOException {
        try (JsonParser parser = FACTORY.createParser(text)) {
            if (parser.nextToken() != JsonToken.START_OBJECT) {
                throw new IOException("no JSON object");
            }
            Map<String, Object> tree = object(parser);
            if (parser.nextToken() != null) {
                throw new IOException("more text after the object");
            }
            return tree;
        }
    }

    private static Map<String, Object> object(JsonParser parser) throws IOException {
        Map<String, Object> out = new LinkedHashMap<>();
        while (parser.nextToken() != JsonToken.END_OBJECT) {
            String name = parser.currentName();
            parser.nextToken();
            out.put(name, value(parser));
        }
        return out;
    }

    private static Object value(JsonParser parser) throws IOException {
        return switch (parser.currentToken()) {
            case START_OBJECT -> object(parser);
            case START_ARRAY -> {
                List<Object> list = new ArrayList<>();
                while (parser.nextToken() != JsonToken.END_ARRAY) {
                    list.add(value(parser));
                }
                yield list;
            }
            case VALUE_STRING -> parser.getText();
            case VALUE_NUMBER_INT -> parser.getLongValue();
            case VALUE_NUMBER_FLOAT -> parser.getDoubleValue();
            case VALUE_TRUE -> true;
            case VALUE_FALSE -> false;
            case VALUE_NULL -> null;
            default -> throw new IOException("unexpected " + parser.currentToken());
        };
    }
}
