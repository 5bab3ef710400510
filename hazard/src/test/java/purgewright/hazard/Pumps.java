package purgewright.hazard;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.hazard.barrier.StreamTable;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.criteria.Setting;
import purgewright.hazard.finding.Scene;
import purgewright.sealflow.Notice;
import purgewright.sealflow.gap.RunningGap;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.network.SolveResult;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.PassageState;

/** Changes of {@link Fakes#pump()}, and settings for single rules. */
public final class Pumps {
    private Pumps() {}

    /** The same case with other streams, cavities and passages. */
    public static Case with(Case m, List<StreamDefinition> streams, List<Cavity> cavities, List<PassageSpec> passages) {
        return new Case(
                m.about(), m.surroundings(), m.rotor(), streams, cavities, passages, List.of(), Map.of(), Map.of());
    }

    /** One passage replaced by another of the same name, or added. */
    public static Case passage(Case m, PassageSpec p) {
        List<PassageSpec> all = new ArrayList<>(m.passages());
        int at = all.indexOf(m.passage(p.name()));
        if (at < 0) {
            all.add(p);
        } else {
            all.set(at, p);
        }
        return with(m, m.streams(), m.cavities(), all);
    }

    /** One cavity replaced by another of the same name, or added. */
    public static Case cavity(Case m, Cavity c) {
        List<Cavity> all = new ArrayList<>(m.cavities());
        int at = all.indexOf(m.cavity(c.name()));
        if (at < 0) {
            all.add(c);
        } else {
            all.set(at, c);
        }
        return with(m, m.streams(), all, m.passages());
    }

    /** One stream replaced by another of the same name, or added. */
    public static Case stream(Case m, StreamDefinition s) {
        List<StreamDefinition> all = new ArrayList<>(m.streams());
        for (int i = 0; i < all.size(); i++) {
            if (all.get(i).name().equals(s.name())) {
                all.set(i, s);
                return with(m, all, m.cavities(), m.passages());
            }
        }
        all.add(s);
        return with(m, all, m.cavities(), m.passages());
    }

    /** A passage shut by its valve. */
    public static PassageSpec closed(PassageSpec p) {
        return new PassageSpec(
                p.name(),
                p.from(),
                p.to(),
                p.type(),
                p.count(),
                p.radius(),
                p.clearance(),
                Double.NaN,
                Double.NaN,
                1,
                Double.NaN,
                true,
                p.fields());
    }

    /** A cavity with a pressure that varies around the circumference, Pa. */
    public static Cavity uneven(Cavity c, double variation) {
        return new Cavity(
                c.name(),
                c.role(),
                c.stream(),
                c.pressure(),
                c.temperature(),
                c.volume(),
                c.radius(),
                c.swirlRatio(),
                c.disc(),
                c.wall(),
                variation);
    }

    /** A cavity in another role. */
    public static Cavity role(Cavity c, Role role) {
        return Fakes.fixed(c.name(), role, c.stream(), c.pressure(), c.temperature());
    }

    /** A cavity with a disc. */
    public static Cavity disc(Cavity c, double inner, double outer) {
        return disc(c, inner, outer, Cavity.Looks.UNSTATED);
    }

    /** A cavity with a disc whose face looks one way. */
    public static Cavity disc(Cavity c, double inner, double outer, Cavity.Looks looks) {
        return new Cavity(
                c.name(),
                c.role(),
                c.stream(),
                c.pressure(),
                c.temperature(),
                c.volume(),
                c.radius(),
                c.swirlRatio(),
                new Cavity.Disc(inner, outer, 1e-3, false, looks),
                c.wall(),
                c.circumferentialVariation());
    }

    /** A cavity beside another through a wall. */
    public static Cavity wall(Cavity c, String other) {
        return new Cavity(
                c.name(),
                c.role(),
                c.stream(),
                c.pressure(),
                c.temperature(),
                c.volume(),
                c.radius(),
                c.swirlRatio(),
                c.disc(),
                new Cavity.Wall(1, Double.NaN, other),
                c.circumferentialVariation());
    }

    /** A result with one passage changed. */
    public static Converged passage(Converged r, String name, UnaryOperator<PassageState> change) {
        Map<String, PassageState> passages = new LinkedHashMap<>(r.passages());
        passages.computeIfPresent(name, (n, p) -> change.apply(p));
        return new Converged(r.convergence(), r.cavities(), passages, r.notices());
    }

    /** A passage with a running gap. */
    public static PassageState gap(PassageState p, RunningGap gap) {
        return new PassageState(
                p.name(),
                p.from(),
                p.to(),
                p.kind(),
                p.flow(),
                p.fromState(),
                p.toState(),
                gap,
                p.surfaceSpeed(),
                p.upstream(),
                p.streamFlows());
    }

    /** A passage whose rotor runs at that speed there, m/s. */
    public static PassageState speed(PassageState p, double speed) {
        return new PassageState(
                p.name(),
                p.from(),
                p.to(),
                p.kind(),
                p.flow(),
                p.fromState(),
                p.toState(),
                p.gap(),
                speed,
                p.upstream(),
                p.streamFlows());
    }

    /** A passage that carries these streams. */
    public static PassageState streams(PassageState p, Map<String, Double> flows) {
        return new PassageState(
                p.name(),
                p.from(),
                p.to(),
                p.kind(),
                p.flow(),
                p.fromState(),
                p.toState(),
                p.gap(),
                p.surfaceSpeed(),
                p.upstream(),
                flows);
    }

    /** A result with notices. */
    public static Converged notices(Converged r, Notice... notices) {
        return new Converged(r.convergence(), r.cavities(), r.passages(), List.of(notices));
    }

    /** A result without one passage. */
    public static Converged without(Converged r, String passage) {
        Map<String, PassageState> passages = new LinkedHashMap<>(r.passages());
        passages.remove(passage);
        return new Converged(r.convergence(), r.cavities(), passages, r.notices());
    }

    /** What a rule looks at. */
    public static Setting setting(Case m, Converged solved, SolveResult opened, Criteria criteria) {
        StreamTable streams = StreamTable.of(new Fakes.Engine().mixer(m.streams()));
        return Setting.of(
                new Fakes.Engine(),
                m,
                solved,
                opened,
                criteria,
                streams,
                Setting.layout(m, solved, streams),
                Scene.of("steady"));
    }

    /** What a rule looks at, with default limits. */
    public static Setting setting(Case m, Converged solved) {
        return setting(m, solved, solved, Criteria.DEFAULT);
    }
}
