package purgewright.samples;

import java.io.IOException;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("What the commands print has not moved unseen; a change is re-based on purpose and told in the changelog")
class GoldenRegressionTest {
    @ParameterizedTest(name = "{0}")
    @CsvSource(
            delimiter = '|',
            value = {
                "check-minimal.json       | check --json samples/cases/minimal.json",
                "check-minimal-us.txt     | check --units us samples/cases/minimal.json",
                "check-spaced.txt         | check samples/cases/spaced-lox-methane.json",
                "check-kerosene.txt       | check samples/cases/shared-rotor-kerosene.json",
                "check-lox.txt            | check samples/cases/shared-rotor-lox.json",
                "check-hub-fed.txt        | check samples/cases/shared-rotor-hub-fed.json",
                "check-falls-short.txt    | check samples/cases/falls-short.json",
                "check-compressor.txt     | check samples/cases/nitrogen-compressor.json",
                "fluid.json               | fluid oxygen --json --temperature 95K --pressure 2MPa",
                "fluid.txt                | fluid oxygen --temperature 95K --pressure 2MPa",
                "fluid-saturation.txt     | fluid methane --saturation",
                "fluid-burn.json          | fluid burn --json --fuel methane --oxidizer oxygen --mixture-ratio 0.4 --pressure 6MPa",
                "error.json               | fluid nothing --json --temperature 95K --pressure 2MPa"
            })
    void isAsKept(String name, String arguments) throws IOException {
        Golden.compare(name, ChildJvm.run(arguments.strip().split(" ")).out());
    }
}
