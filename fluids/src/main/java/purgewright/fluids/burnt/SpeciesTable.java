package purgewright.fluids.burnt;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The tables of species: polynomials (thermo-nasa7.csv) and Lennard-Jones parameters (lennard-jones.csv), each with its source in
 * the first lines of the file.
 */
public final class SpeciesTable {
    private static final Map<String, Species> SPECIES = readSpecies();
    private static final Map<String, LennardJones> POTENTIALS = readPotentials();

    private SpeciesTable() {}

    /**
     * Parameters of the 12-6 potential.
     *
     * @param wellDepth depth over the Boltzmann constant, K
     * @param diameter collision diameter, angstrom
     * @param dipole debye
     * @param shape atom, linear or nonlinear
     */
    public record LennardJones(double wellDepth, double diameter, double dipole, String shape) {}

    /** All species in the table's order, graphite included. */
    public static Map<String, Species> all() {
        return SPECIES;
    }

    /** A species, or null when the table has none of that name. */
    public static Species find(String name) {
        return SPECIES.get(name);
    }

    /** Potential of a species, or null when the table has none. */
    public static LennardJones potential(String name) {
        return POTENTIALS.get(name);
    }

    private static Map<String, Species> readSpecies() {
        Map<String, Species> table = new LinkedHashMap<>();
        for (String[] cells : rows("thermo-nasa7.csv")) {
            Map<String, Double> elements = new LinkedHashMap<>();
            for (String part : cells[1].split(" ", -1)) {
                int colon = part.indexOf(':');
                elements.put(part.substring(0, colon), Double.valueOf(part.substring(colon + 1)));
            }
            double[] low = new double[7];
            double[] high = new double[7];
            for (int i = 0; i < 7; i++) {
                low[i] = Double.parseDouble(cells[6 + i]);
                high[i] = Double.parseDouble(cells[13 + i]);
            }
            Nasa7 polynomial = new Nasa7(
                    Double.parseDouble(cells[3]),
                    Double.parseDouble(cells[4]),
                    Double.parseDouble(cells[5]),
                    low,
                    high);
            table.put(
                    cells[0],
                    new Species(
                            cells[0],
                            elements,
                            Double.parseDouble(cells[2]) / 1000,
                            polynomial,
                            cells[0].contains("(")));
        }
        return Collections.unmodifiableMap(table);
    }

    private static Map<String, LennardJones> readPotentials() {
        Map<String, LennardJones> table = new LinkedHashMap<>();
        for (String[] cells : rows("lennard-jones.csv")) {
            table.put(
                    cells[0],
                    new LennardJones(
                            Double.parseDouble(cells[2]),
                            Double.parseDouble(cells[3]),
                            Double.parseDouble(cells[4]),
                            cells[1]));
        }
        return Collections.unmodifiableMap(table);
    }

    /** Rows below the heading line, comment lines left out. */
    private static List<String[]> rows(String resource) {
        List<String[]> rows = new ArrayList<>();
        try (InputStream stream = SpeciesTable.class.getResourceAsStream(resource);
                BufferedReader reader = new BufferedReader(new InputStreamReader(stream, StandardCharsets.UTF_8))) {
            boolean heading = true;
            for (String line = reader.readLine(); line != null; line = reader.readLine()) {
                if (line.startsWith("#") || line.isBlank()) {
                    continue;
                }
                if (heading) {
                    heading = false;
                    continue;
                }
                rows.add(line.split(",", -1));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return rows;
    }
}
