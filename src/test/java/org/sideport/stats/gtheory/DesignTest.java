package org.sideport.stats.gtheory;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** Effects of the designs of Brennan 2001, Generalizability Theory, chapter 3 (from memory). */
class DesignTest {

    private static List<String> labels(Design design) {
        return design.effects().stream().map(Effect::label).toList();
    }

    @Test
    void crossedFacetsShowAllInteractions() {
        assertThat(labels(Design.crossed("p", "c", "r")))
                .containsExactly("p", "c", "r", "p × c", "p × r", "c × r", "p × c × r");
        assertThat(Design.crossed("p", "c", "r").effects())
                .last()
                .extracting(Effect::name)
                .isEqualTo("residual");
        assertThat(Design.crossed("p", "c", "i", "r").effects()).hasSize(15);
        assertThat(Design.crossed("p", "c").effects().get(1).name()).isEqualTo("c");
    }

    @Test
    void nestedFacetsHaveNoEffectOfTheirOwn() {
        assertThat(labels(Design.crossed("p", "r").nest("r", Set.of("p")))).containsExactly("p", "r in p");
        assertThat(labels(Design.crossed("p", "c", "r").nest("c", Set.of("p"))))
                .containsExactly("p", "r", "c in p", "p × r", "c × r in p");
        assertThat(labels(Design.crossed("p", "c", "r").nest("r", Set.of("c"))))
                .containsExactly("p", "c", "p × c", "r in c", "p × r in c");
        assertThat(labels(Design.crossed("p", "c", "r").nest("r", Set.of("p", "c"))))
                .containsExactly("p", "c", "p × c", "r in p and c");
    }

    @Test
    void nestingIsPassedOn() {
        Design chain = Design.crossed("p", "c", "r").nest("c", Set.of("p")).nest("r", Set.of("c"));
        assertThat(chain.facet("r").within()).containsExactlyInAnyOrder("p", "c");
        assertThat(labels(chain)).containsExactly("p", "c in p", "r in p and c");
        assertThat(chain.describe()).isEqualTo("p, c in p, r in p and c");
        assertThat(chain.effect(Set.of("c")).facets()).containsExactly("p", "c");
        assertThat(chain.effect(Set.of("c")).isResidual()).isFalse();
        assertThat(chain.effect(Set.of("r")).isResidual()).isTrue();
        assertThat(chain.mask(chain.effect(Set.of("c")))).isEqualTo(3);
    }

    @Test
    void impossibleDesignsAreProgrammingErrors() {
        assertThatIllegalArgumentException().isThrownBy(() -> Design.crossed("p"));
        assertThatIllegalArgumentException().isThrownBy(() -> Design.crossed("p", "p"));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> Design.crossed("1", "2", "3", "4", "5", "6", "7", "8", "9"));
        assertThat(Design.crossed("1", "2", "3", "4", "5", "6", "7", "8").facets())
                .hasSize(8);
        assertThatIllegalArgumentException()
                .isThrownBy(() -> Design.crossed("p", "r").nest("p", Set.of("r")));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> Design.crossed("p", "r").nest("r", Set.of("x")));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> Design.crossed("p", "r").nest("x", Set.of("p")));
        assertThatIllegalArgumentException()
                .isThrownBy(() ->
                        Design.crossed("p", "c", "r").nest("r", Set.of("c")).nest("c", Set.of("r")));
        assertThatIllegalArgumentException().isThrownBy(() -> new Facet("r", Set.of("r")));
        assertThatIllegalArgumentException().isThrownBy(() -> new Facet(" ", Set.of()));
        assertThatIllegalArgumentException().isThrownBy(() -> new Effect(List.of(), "x", "x"));
    }
}
