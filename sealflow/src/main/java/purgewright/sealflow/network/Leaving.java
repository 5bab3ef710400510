package purgewright.sealflow.network;

import java.util.Map;
import java.util.function.Function;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyException;

/**
 * What leaves a cavity that holds a separate liquid, by a passage that takes more or less of it than there is.
 *
 * <pre>{@code
 * r = (liquid / gas in what leaves) / (liquid / gas in the cavity),   l_k condensed share of stream k
 * y_k = (y_k,held - (1 - r) l_k) / D,   h = (h_held - (1 - r) sum l_k h_k,liquid) / D,   D = 1 - (1 - r) sum l_k
 * }</pre>
 *
 * <p>In a steady state what flows in flows out, so that a small r does not keep liquid back: the cavity fills until what its passages
 * take makes up for what comes. Only liquid of a stream of one species is taken apart; water that condenses from burnt gas
 * stays in proportion, since its stream has a fixed composition.
 *
 * @param state of what leaves
 * @param fractions mass fractions of streams in it
 */
record Leaving(FluidState state, double[] fractions) {
    /** The liquid's enthalpy is taken a hair above the cavity's pressure: at the boiling line itself it may be vapour. */
    private static final double PRESSED = 1.001;

    /**
     * @param ratio r
     * @param s the cavity's state
     * @param y its mass fractions of streams
     * @param mixing fluid of given fractions
     * @return null where there is no separate liquid, or nothing else
     */
    static Leaving of(Network net, double ratio, FluidState s, double[] y, Function<double[], Fluid> mixing) {
        Map<String, Double> condensed = net.mixer.split(s).condensedMassFractions();
        if (condensed.isEmpty()) {
            return null;
        }
        Map<String, Double> species = net.mixer.speciesMassFractions(y);
        double divisor = 1;
        double h = s.enthalpy();
        double[] out = y.clone();
        for (int k = 0; k < y.length; k++) {
            double liquid = net.onlySpecies[k] == null ? 0 : condensed.getOrDefault(net.onlySpecies[k], 0.0);
            if (!(liquid > 0) || !(y[k] > 0)) {
                continue;
            }
            // Where several streams bring the same species each has its part of the liquid.
            double share = Math.min(y[k], liquid * y[k] / species.get(net.onlySpecies[k]));
            double left = (1 - ratio) * share;
            double own;
            try {
                own = net.mixer.stream(k)
                        .atPressureTemperature(PRESSED * s.pressure(), s.temperature())
                        .enthalpy();
            } catch (PropertyException e) {
                continue; // no liquid by itself at this state: it goes with the rest
            }
            out[k] -= left;
            h -= left * own;
            divisor -= left;
        }
        if (divisor == 1) {
            return null;
        }
        for (int k = 0; k < y.length; k++) {
            out[k] /= divisor;
        }
        return new Leaving(mixing.apply(out).atPressureEnthalpy(s.pressure(), h / divisor), out);
    }
}
