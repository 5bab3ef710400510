package purgewright.samples;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName(
        "What sizing, window, duty, campaign, faults, fit and spread print has not moved unseen; words as kept, numbers within a share")
class StudyGoldenTest {
    /** Four printed digits of searched values; what a solver's last digits may move them by. */
    private static final double SHARE = 3e-3;

    @ParameterizedTest(name = "{0}")
    @CsvSource(
            delimiter = '|',
            value = {
                "size-minimal.txt   | size samples/cases/minimal.json --no-extremes --no-wear --quiet",
                "wear-minimal.txt   | check samples/cases/minimal.json --wear",
                "map-minimal.txt    | map samples/cases/minimal.json --x /cavities/bottle_line/pressure=0.5MPa..4MPa"
                        + " --y /passages/ring_A/clearance=20um..120um --steps 4 --resolution 20 --quiet",
                "run-spaced.txt     | run samples/cases/spaced-lox-methane.json --phase start --phase steady --points 3 --quiet",
                "plan-spaced.txt    | plan samples/cases/spaced-lox-methane.json --samples 200 --seed 3 --no-redline --quiet",
                "fail-minimal.txt   | fail samples/cases/minimal.json --no-times --quiet",
                "fit-ring.txt       | fit samples/cases/spaced-lox-methane.json samples/data/flow-check-ring-a.csv --passage ring_A"
                        + " --gas nitrogen --flow-uncertainty 0.02 --quiet",
                "spread-spaced.txt  | spread samples/cases/spaced-lox-methane.json --samples 4 --seed 3 --phase steady --quiet"
            })
    void isAsKept(String name, String arguments) throws IOException {
        String[] words = arguments.strip().split(" ");
        for (int i = 0; i < words.length; i++) {
            words[i] = words[i].replace("bottle_line", "bottle line").replace("ring_A", "ring A");
        }
        ChildJvm.Outcome outcome = ChildJvm.run(words);
        assertThat(outcome.code()).as(outcome.err()).isBetween(0, 4);
        assertThat(outcome.out()).as(outcome.err()).isNotEmpty();
        Golden.compareWithin(name, outcome.out(), SHARE);
    }
}
