package org.sideport.stats;

import java.util.function.Function;

/** What a method says: a result, or a named refusal. Never NaN. */
public sealed interface Outcome<T> {

    record Found<T>(T value) implements Outcome<T> {}

    record Refused<T>(Refusal refusal) implements Outcome<T> {}

    static <T> Outcome<T> of(T value) {
        return new Found<>(value);
    }

    static <T> Outcome<T> refused(Refusal.Reason reason, String why, String remedy) {
        return new Refused<>(new Refusal(reason, why, remedy));
    }

    default <R> Outcome<R> map(Function<? super T, ? extends R> change) {
        return flatMap(value -> new Found<>(change.apply(value)));
    }

    default <R> Outcome<R> flatMap(Function<? super T, Outcome<R>> next) {
        if (this instanceof Found<T> found) {
            return next.apply(found.value());
        }
        return new Refused<>(((Refused<T>) this).refusal());
    }

    /**
     * For callers that know that there is a result.
     *
     * @throws IllegalStateException with the refusal's sentence
     */
    default T orElseThrow() {
        if (this instanceof Found<T> found) {
            return found.value();
        }
        throw new IllegalStateException(((Refused<T>) this).refusal().why());
    }
}
