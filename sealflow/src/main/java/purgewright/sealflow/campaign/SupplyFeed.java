package purgewright.sealflow.campaign;

import purgewright.fluids.FluidState;
import purgewright.fluids.PureFluid;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.DutyPhase;
import purgewright.sealflow.model.Supply;
import purgewright.sealflow.supply.Feed;
import purgewright.sealflow.supply.GasLine;
import purgewright.sealflow.supply.Regulator;

/**
 * What a stated supply gives at the cavity it feeds: its source through regulator and line. The one place for it, so that a check asks
 * the same regulator that a run follows.
 */
public final class SupplyFeed {
    private SupplyFeed() {}

    /**
     * To what a phase sets the regulator, Pa: its own place {@code /supply/regulator/set pressure}, else the pressure of the cavity it
     * feeds where the phase sets that, else as the supply says; NaN without a regulator.
     *
     * @param phaseOrNull null for a case without a duty
     * @param model the case of the phase
     * @throws IllegalArgumentException when it is not known which cavity it feeds
     */
    public static double setPressure(DutyPhase phaseOrNull, Case model) {
        Supply supply = model.supply();
        if (supply == null || supply.regulator() == null) {
            return Double.NaN;
        }
        if (phaseOrNull == null || phaseOrNull.set().containsKey("/supply/regulator/set pressure")) {
            return supply.regulator().setPressure();
        }
        String cavity = DutyRun.cavity(model, supply);
        return phaseOrNull.set().containsKey("/cavities/" + cavity + "/pressure")
                ? model.cavity(cavity).pressure()
                : supply.regulator().setPressure();
    }

    /** The line from regulator to cavity; null when none is stated. */
    public static GasLine line(Supply supply) {
        Supply.Line l = supply.line();
        return l == null
                ? null
                : new GasLine(
                        l.diameter(),
                        l.length(),
                        Double.isNaN(l.roughness()) ? GasLine.DRAWN : l.roughness(),
                        l.lossCoefficient());
    }

    /**
     * Regulator and line.
     *
     * @param setPressure of the regulator, Pa; infinite for one set as high as it goes, so that it stands wide open
     * @param firstInlet inlet pressure at which it was set, Pa; NaN where the inlet's effect is left out
     */
    static Feed of(Supply supply, double setPressure, double firstInlet) {
        Supply.Regulator r = supply.regulator();
        boolean effect = r != null && r.inletEffect() > 0 && !Double.isNaN(firstInlet);
        return new Feed(
                r == null
                        ? null
                        : new Regulator(
                                setPressure,
                                r.droop(),
                                r.minimumInletMargin(),
                                effect ? r.inletEffect() : 0,
                                effect ? firstInlet : Double.NaN),
                line(supply));
    }

    /** The gas as it stands before the regulator, nothing drawn yet: full bottles, the main, the tank's gas; null when no source is stated. */
    public static FluidState full(Supply supply, PureFluid gas) {
        if (supply.bottles() != null) {
            return gas.atPressureTemperature(
                    supply.bottles().fillingPressure(), supply.bottles().temperature());
        }
        return main(supply, gas);
    }

    /** A source of steady pressure, bottles left aside; null when none is stated. */
    static FluidState main(Supply supply, PureFluid gas) {
        if (supply.plant() != null) {
            return gas.atPressureTemperature(
                    supply.plant().pressure(), supply.plant().temperature());
        }
        return supply.liquid() == null
                ? null
                : gas.atPressureTemperature(
                        supply.liquid().pressure(), supply.liquid().temperature());
    }

    /**
     * Pressure at the cavity while a flow is drawn, nothing used up yet, Pa; 0 when the regulator or the line cannot pass the flow, infinite
     * where neither source nor regulator is stated. Of a regulator without a source the line is left out: what flows in it is not known.
     *
     * @param setPressure of the regulator, Pa; infinite for the most that any setting gives; not looked at without a regulator
     * @param flow kg/s; below 0 counts as none
     */
    public static double delivered(Supply supply, PureFluid gas, double setPressure, double flow) {
        FluidState source = full(supply, gas);
        double m = Math.max(0, flow);
        if (source == null) {
            Supply.Regulator r = supply.regulator();
            return r == null ? Double.POSITIVE_INFINITY : Math.max(0, setPressure - r.droop() * m);
        }
        double droop = supply.regulator() == null ? 0 : supply.regulator().droop() * m;
        if (setPressure <= droop) {
            return 0;
        }
        double end = of(supply, setPressure, Double.NaN).outlet(source, m).pressure();
        return Double.isNaN(end) ? 0 : end;
    }

    /** Least pressure of the source at which the regulator still regulates at a flow, Pa; NaN without one. */
    public static double leastInlet(Supply supply, double setPressure, double flow) {
        Regulator r = of(supply, setPressure, Double.NaN).regulator();
        return r == null ? Double.NaN : r.leastInlet(flow);
    }
}
