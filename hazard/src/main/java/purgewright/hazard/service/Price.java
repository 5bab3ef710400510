package purgewright.hazard.service;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyException;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.barrier.StreamTable;
import purgewright.hazard.sizing.BarrierPrice;
import purgewright.hazard.sizing.BarrierPrice.Carried;
import purgewright.hazard.sizing.BarrierPrice.Loss;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.PassageState;

/** Adds up what a barrier costs at a solved operating point. */
final class Price {
    /** Flows below this share of the greatest are noise of the solver. */
    private static final double NOISE = 1e-9;

    private Price() {}

    static BarrierPrice of(String phase, Case model, Converged solve, BarrierLayout layout, StreamTable streams) {
        double windage = 0;
        for (CavityState c : solve.cavities().values()) {
            windage += c.windage();
        }
        double friction = 0;
        double greatest = 0;
        for (PassageState p : solve.passages().values()) {
            friction += p.flow().heat();
            greatest = Math.max(greatest, Math.abs(p.flow().massFlow()));
        }
        return new BarrierPrice(
                phase,
                Purge.flow(model, solve, layout),
                losses(model, solve, streams, Set.of(Role.OXIDIZER, Role.FUEL)),
                losses(model, solve, streams, Set.of(Role.HOT_GAS)),
                windage,
                friction,
                carried(model, solve, layout, streams, NOISE * greatest));
    }

    /** Inert gas in a working cavity (chill-down, post-purge) is no working fluid and no loss of one. */
    private static List<Loss> losses(Case model, Converged solve, StreamTable streams, Set<Role> roles) {
        Set<String> names = new LinkedHashSet<>();
        for (Cavity c : model.cavities()) {
            if (c.fixed() && roles.contains(c.role()) && c.stream() != null && !streams.inert(c.stream())) {
                names.add(c.stream());
            }
        }
        List<Loss> out = new ArrayList<>();
        for (String stream : names) {
            double given = 0;
            double returned = 0;
            for (Cavity c : model.cavities()) {
                if (!c.fixed() || c.role() == Role.VENT || !stream.equals(c.stream())) {
                    continue;
                }
                for (PassageState p : solve.passages().values()) {
                    double outward = outward(p, c.name(), stream);
                    given += Math.max(outward, 0);
                    returned += Math.max(-outward, 0);
                }
            }
            out.add(new Loss(stream, given, returned, model.mainFlow(stream)));
        }
        return out;
    }

    /** Flow of a stream out of a cavity through a passage, kg/s; 0 when the passage does not touch it. */
    private static double outward(PassageState p, String cavity, String stream) {
        double flow = p.streamFlows().getOrDefault(stream, 0.0);
        return p.from().equals(cavity) ? flow : p.to().equals(cavity) ? -flow : 0;
    }

    private static List<Carried> carried(
            Case model, Converged solve, BarrierLayout layout, StreamTable streams, double noise) {
        List<Carried> out = new ArrayList<>();
        for (Cavity c : model.cavities()) {
            CavityState receiver = solve.cavities().get(c.name());
            boolean working = c.role() == Role.OXIDIZER || c.role() == Role.FUEL || c.role() == Role.HOT_GAS;
            if (!working || !c.fixed() || receiver == null || c.stream() == null || layout.inertFed(c.name())) {
                continue;
            }
            for (PassageState p : solve.passages().values()) {
                for (Map.Entry<String, Double> e : p.streamFlows().entrySet()) {
                    double inward = -outward(p, c.name(), e.getKey());
                    if (inward > noise
                            && streams.inert(e.getKey())
                            && !e.getKey().equals(c.stream())) {
                        double whole = p.to().equals(c.name())
                                ? p.flow().massFlow()
                                : -p.flow().massFlow();
                        out.add(carried(model, solve, c, receiver, p.name(), e.getKey(), inward, whole));
                    }
                }
            }
        }
        return out;
    }

    private static Carried carried(
            Case model,
            Converged solve,
            Cavity into,
            CavityState receiver,
            String passage,
            String gas,
            double inward,
            double whole) {
        boolean liquid = receiver.state().phase() == Phase.LIQUID;
        FluidState state = receiver.state();
        Fluid pure = fluid(model, solve, gas);
        double share = Double.NaN;
        double entry = Double.NaN;
        if (pure != null) {
            double ratio = liquid ? densityRatio(pure, state) : state.fluid().molarMass() / pure.molarMass();
            share = share(inward, model.mainFlow(into.stream()), ratio);
            entry = share(inward, Math.max(whole - inward, 0), ratio);
        }
        return new Carried(passage, into.name(), into.stream(), liquid, inward, share, entry);
    }

    /** Volume (or moles) of gas over the whole, for a mass flow of gas into a main mass flow. */
    private static double share(double gas, double main, double ratio) {
        return gas * ratio / (gas * ratio + main);
    }

    /** Density of the receiving liquid over the gas's at its pressure and temperature. */
    private static double densityRatio(Fluid gas, FluidState liquid) {
        try {
            return liquid.density()
                    / gas.atPressureTemperature(liquid.pressure(), liquid.temperature())
                            .density();
        } catch (PropertyException e) {
            return Double.NaN;
        }
    }

    /** The gas as it stands in a cavity that is held with it; null when there is none. */
    private static Fluid fluid(Case model, Converged solve, String stream) {
        for (Cavity c : model.cavities()) {
            CavityState state = solve.cavities().get(c.name());
            if (c.fixed() && stream.equals(c.stream()) && state != null) {
                return state.state().fluid();
            }
        }
        return null;
    }
}
