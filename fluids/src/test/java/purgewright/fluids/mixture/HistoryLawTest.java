package purgewright.fluids.mixture;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyException;

@DisplayName("A state depends on nothing that was asked before: the same bits in any order, on any thread")
class HistoryLawTest {
    private static final StreamMixer MIXER = Engines.embedded()
            .mixer(List.of(
                    new StreamDefinition.Single("helium", "helium"),
                    new StreamDefinition.Single("oxygen", "oxygen"),
                    new StreamDefinition.Single("kerosene", "n-dodecane"),
                    new StreamDefinition.Burn("burnt", "methane", "oxygen", 0.4, 6e6, 120, 95, false)));

    /** One question: which mixture, which pressure, which temperature it is made from, by which pair it is asked. */
    private record Question(Fluid fluid, double pressure, double temperature, int pair, boolean near) {
        String answer() {
            try {
                FluidState at = fluid.atPressureTemperature(pressure, temperature);
                FluidState beside = near ? fluid.atPressureTemperature(0.99 * pressure, 1.01 * temperature) : null;
                FluidState s =
                        switch (pair) {
                            case 0 -> at;
                            case 1 ->
                                near
                                        ? fluid.atPressureEnthalpy(0.8 * pressure, at.enthalpy(), beside)
                                        : fluid.atPressureEnthalpy(0.8 * pressure, at.enthalpy());
                            default ->
                                near
                                        ? fluid.atPressureEntropy(0.8 * pressure, at.entropy(), beside)
                                        : fluid.atPressureEntropy(0.8 * pressure, at.entropy());
                        };
                return s + " " + fluid.viscosity(s) + " " + fluid.conductivity(s);
            } catch (PropertyException refused) {
                return "refused";
            }
        }
    }

    private static List<Question> questions() {
        Random random = new Random(3);
        List<Question> all = new ArrayList<>();
        for (int i = 0; i < 400; i++) {
            double[] shares = new double[4];
            double sum = 0;
            int some = 1 + random.nextInt(4);
            for (int k = 0; k < some; k++) {
                int at = random.nextInt(4);
                shares[at] += random.nextDouble();
            }
            for (double share : shares) {
                sum += share;
            }
            for (int k = 0; k < 4; k++) {
                shares[k] /= sum;
            }
            all.add(new Question(
                    MIXER.mix(shares),
                    Math.exp(Math.log(2e4) + random.nextDouble() * Math.log(1e3)),
                    80 + 900 * random.nextDouble() * random.nextDouble(),
                    random.nextInt(3),
                    random.nextBoolean()));
        }
        return all;
    }

    @Test
    void inAnyOrderAndOnAnyThread() throws InterruptedException {
        List<Question> questions = questions();
        List<String> forward = new ArrayList<>();
        for (Question q : questions) {
            forward.add(q.answer());
        }
        assertThat(forward)
                .as("most are answered")
                .filteredOn(a -> !a.equals("refused"))
                .hasSizeGreaterThan(200);

        List<String> backward = Collections.synchronizedList(new ArrayList<>());
        Thread other = new Thread(() -> {
            for (int i = questions.size() - 1; i >= 0; i--) {
                backward.add(questions.get(i).answer());
            }
        });
        other.start();
        other.join();
        Collections.reverse(backward);
        for (int i = 0; i < forward.size(); i++) {
            assertThat(backward.get(i))
                    .as("question %d: %s", i, questions.get(i))
                    .isEqualTo(forward.get(i));
        }
    }
}
