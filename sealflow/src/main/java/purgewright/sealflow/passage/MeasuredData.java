package purgewright.sealflow.passage;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;

/** Reads the files of measured leakage: comment lines with the source, a head line, numbers in SI or as the column says. */
final class MeasuredData {
    private static final String FOLDER = "/purgewright/sealflow/measured/";

    private MeasuredData() {}

    static List<CSVRecord> rows(String file) {
        CSVFormat format = CSVFormat.DEFAULT
                .builder()
                .setCommentMarker('#')
                .setHeader()
                .setSkipHeaderRecord(true)
                .get();
        try (InputStream stream = MeasuredData.class.getResourceAsStream(FOLDER + file);
                BufferedReader reader = new BufferedReader(new InputStreamReader(stream, StandardCharsets.UTF_8))) {
            return format.parse(reader).getRecords();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static double number(CSVRecord row, String column) {
        return Double.parseDouble(row.get(column));
    }
}
