package purgewright.hazard.flammability;

import java.util.LinkedHashMap;
import java.util.Map;
import purgewright.fluids.PropertyException;
import purgewright.fluids.burnt.Equilibrium;

/**
 * Adiabatic flame temperature by chemical equilibrium at constant pressure, ideal gases: {@code h_products(T, p) = h_mixture(T0)}.
 *
 * <p>Checked against published flame temperatures with the combustion gas of the property room. Not for liquids: the mixture counts as
 * gas at its temperature, which is on the high side.
 */
public final class Flame {
    private static final double COLDEST = 200;

    private Flame() {}

    /**
     * Temperature after the mixture has burnt to equilibrium, K.
     *
     * @param moleFractions of the unburnt mixture
     * @param temperature K; below 200 K the mixture's enthalpy is that of 200 K less its heat capacity times the distance, so that the
     *     rise stays that of 200 K
     * @param pressure Pa
     * @return NaN when a species has no thermodynamic data
     */
    public static double temperature(Map<String, Double> moleFractions, double temperature, double pressure) {
        Map<String, Double> moles = new LinkedHashMap<>();
        moleFractions.forEach((name, x) -> {
            if (x > 0) {
                moles.put("kerosene".equals(name) ? "Jet-A" : name, x);
            }
        });
        double from = Math.max(COLDEST, temperature);
        try {
            double enthalpy = Equilibrium.enthalpy(moles, from);
            double hot =
                    Equilibrium.atPressureEnthalpy(moles, enthalpy, pressure).temperature();
            return hot - from + temperature;
        } catch (PropertyException | IllegalArgumentException e) {
            return Double.NaN;
        }
    }
}
