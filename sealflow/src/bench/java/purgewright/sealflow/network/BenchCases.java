package purgewright.sealflow.network;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.PassageSpec;

/** Cases to be timed: the samples, the same with other clearances, and chains of any length. */
final class BenchCases {
    private BenchCases() {}

    /** A sample by name; run from the project's root. */
    static Case sample(String name) {
        return CaseDocument.read(Path.of("samples", "cases", name + ".json")).toCase();
    }

    /** All clearances drawn anew, normally distributed about their own with a standard deviation of a share of them. */
    static Case perturbed(Case c, Random random, double share) {
        List<PassageSpec> passages = new ArrayList<>();
        for (PassageSpec p : c.passages()) {
            passages.add(new PassageSpec(
                    p.name(),
                    p.from(),
                    p.to(),
                    p.type(),
                    p.count(),
                    p.radius(),
                    p.clearance() * Math.max(0.1, 1 + share * random.nextGaussian()),
                    p.wornClearance(),
                    p.clearanceGrowth(),
                    p.calibrationFactor(),
                    p.stirring(),
                    p.closed(),
                    p.fields()));
        }
        return new Case(
                c.about(), c.surroundings(), c.rotor(), c.streams(), c.cavities(), passages, c.duty(), c.criteria(), c.extras());
    }

    /**
     * Nitrogen through a chain of rings, with an orifice to a vent at every fifth cavity; helium comes in at the fifth and at every tenth
     * from there, so that a longer chain is more of the same and does not stand still at its end.
     */
    static Case chain(int cavities) {
        CaseSketch s = new CaseSketch().stream("nitrogen", "nitrogen").stream("helium", "helium")
                .fixed("high", "nitrogen", 3e6, 300)
                .fixed("purge", "helium", 2.5e6, 290)
                .fixed("low", "nitrogen", 1e5, 300);
        for (int i = 0; i < cavities; i++) {
            s.free("c" + i);
        }
        for (int i = 0; i <= cavities; i++) {
            s.seal(
                    "ring " + i,
                    i == 0 ? "high" : "c" + (i - 1),
                    i == cavities ? "low" : "c" + i,
                    "bushing",
                    0.03,
                    0.1e-3,
                    "length",
                    4e-3);
        }
        for (int i = 4; i < cavities; i += 5) {
            s.passage("bleed " + i, "c" + i, "low", "orifice", "diameter", 0.3e-3, "discharge coefficient", 0.8);
        }
        for (int i = 5; i < cavities; i += 10) {
            s.passage("feed " + i, "purge", "c" + i, "orifice", "diameter", 0.5e-3, "discharge coefficient", 0.8);
        }
        return s.make();
    }
}
