package purgewright.fluids.validation;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import purgewright.fluids.Engines;

@DisplayName("Pure fluids against papers, tables of a property library, and derived values")
class PureFluidsValidationTest {
    @TestFactory
    Stream<DynamicTest> everyCheckIsMet() {
        return FluidChecks.all().stream()
                .map(check -> DynamicTest.dynamicTest(check.id() + " [" + check.source() + "]", () -> {
                    double ours = check.ours().getAsDouble();
                    assertThat(check.passes(ours))
                            .as("expected %s, ours %s, tolerance %s", check.expected(), ours, check.tolerance())
                            .isTrue();
                }));
    }

    @TestFactory
    @DisplayName("Every digit that the papers print")
    Stream<DynamicTest> everyPrintedValueIsMet() {
        return PrintedValue.all().stream()
                .map(value -> DynamicTest.dynamicTest(
                        value.fluid() + " " + value.property() + " [" + value.source() + "]",
                        () -> assertThat(value.ours(Engines.embedded()))
                                .isCloseTo(value.value(), org.assertj.core.api.Assertions.within(value.allowed()))));
    }

    @Test
    void theDeviationTableIsPrintedNothingIsRefusedAndAllIsWithinTolerance() {
        List<DeviationTable.Row> rows = DeviationTable.all(Engines.embedded());
        System.out.println(DeviationTable.text(rows));
        assertThat(rows).hasSize(15).allSatisfy(row -> {
            assertThat(row.refused()).isZero();
            assertThat(row.states()).isGreaterThan(140);
            boolean estimated =
                    Engines.embedded().pure(row.fluid()).transportSource().viscosityEstimated();
            for (DeviationTable.Property property : DeviationTable.Property.values()) {
                boolean transport = property == DeviationTable.Property.VISCOSITY
                        || property == DeviationTable.Property.CONDUCTIVITY;
                for (boolean near : new boolean[] {false, true}) {
                    boolean ends = near && property == DeviationTable.Property.SURFACE_TENSION;
                    if (!(transport && estimated) && !(ends && row.fluid().equals("ethanol"))) {
                        assertThat(row.deviation(property, near))
                                .as("%s of %s, near critical %s", property.symbol(), row.fluid(), near)
                                .isLessThanOrEqualTo(property.tolerance(near));
                    }
                }
            }
        });
    }
}
