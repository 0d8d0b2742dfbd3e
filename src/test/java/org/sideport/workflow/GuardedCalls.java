package org.sideport.workflow;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.ThreadLocalRandom;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Rating;
import org.sideport.model.Role;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.access.Reach;

/**
 * Every guarded call of the floor with what it asks the table of permissions for, and with arguments that get as far as
 * its guard, for {@link GuardedCallsTest}. One class for each room.
 */
final class GuardedCalls {

    static final String CASE = "C-1";
    static final MediaTime AT = MediaTime.ofSeconds(5);
    /** Two phases. */
    static final Tagging TAGS = new Tagging(
            TaggingStyle.START_AND_END,
            List.of(
                    new PhaseSpan("incision", MediaTime.ofSeconds(1), MediaTime.ofSeconds(9), null),
                    new PhaseSpan("rhexis", MediaTime.ofSeconds(9), MediaTime.ofSeconds(40), null)),
            List.of());

    static final String ITEM = Unit.RUBRIC.items().get(0).id();

    private final List<Call> calls = new ArrayList<>();

    private GuardedCalls() {}

    static List<Call> all() {
        GuardedCalls all = new GuardedCalls();
        GuardedCaseCalls.add(all);
        GuardedCommentCalls.add(all);
        GuardedMarkCalls.add(all);
        GuardedTagCalls.add(all);
        GuardedPeopleCalls.add(all);
        GuardedAssignCalls.add(all);
        GuardedConsentCalls.add(all);
        GuardedExchangeCalls.add(all);
        GuardedStandardCalls.add(all);
        GuardedUpkeepCalls.add(all);
        GuardedRubricCalls.add(all);
        return List.copyOf(all.calls);
    }

    /**
     * What a call has to work with.
     *
     * @param anyones the workspace where all is allowed, to prepare
     * @param on the workspace on behalf of who tries
     * @param code under which the work is to be done
     * @param dir for files
     */
    record Given(Workspace anyones, Workspace on, String code, Path dir) {

        SurgicalCase theCase() {
            return anyones.read(s -> s.cases().get(CASE));
        }

        /** True for the trainee of the case, who can mark it as a self-rating only. */
        boolean isSelf() {
            return code.equals("T03");
        }

        /** So that somebody has tagged the case, in this way and no other. */
        void tagged(String annotator, Tagging tagging) {
            anyones.change(s -> s.taggings().save(CASE, annotator, tagging));
        }

        /** A file that is not there yet. */
        Path fresh(String ending) {
            return dir.resolve(UUID.randomUUID() + ending);
        }

        /** Signed marks of the case: each level 3 but for the first items, which get other points. */
        void signed(String assessor, int others, int points) {
            boolean self = assessor.equals("T03");
            boolean there = anyones.read(s -> s.ratings().ofCase(CASE).stream()
                    .anyMatch(r -> r.rating().assessor().equals(assessor)));
            if (there) {
                return;
            }
            Rating rating = Unit.rating(assessor, self);
            for (int i = 0; i < others; i++) {
                rating = Unit.withPoints(rating, Unit.RUBRIC.items().get(i).id(), points);
            }
            MarkCase marking = new MarkCase(anyones);
            marking.rate(CASE, rating);
            marking.sign(CASE, rating.rubric(), assessor, self);
        }
    }

    interface Work {
        Object run(Given given) throws Exception;
    }

    /** Somebody who tries: the trainee of C-1 or another; the assessor it is given to or another; a director. */
    enum Who {
        TRAINEE("T03", Role.TRAINEE),
        OTHER_TRAINEE("T99", Role.TRAINEE),
        ASSESSOR("A1", Role.ASSESSOR),
        OTHER_ASSESSOR("A99", Role.ASSESSOR),
        DIRECTOR("D1", Role.DIRECTOR);

        final String code;
        final Role role;

        Who(String code, Role role) {
            this.code = code;
            this.role = role;
        }

        /** What the reach of the table comes to for this one and C-1. */
        boolean reachesCase(Reach reach) {
            return switch (reach) {
                case NONE -> false;
                case OWN -> this == TRAINEE;
                case GIVEN -> this == ASSESSOR;
                case ALL -> true;
            };
        }
    }

    /** What the permission is asked about. */
    enum About {
        /** No single case: whoever may with some case may. */
        NOTHING,
        /** C-1. */
        CASE,
        /** All that concerns trainee T03: the trainee may, who directs may. */
        PERSON
    }

    /**
     * @param asks the permissions of the table, one of which is enough
     * @param underACode true if it works under a person's code, which must be the caller's
     */
    record Call(String name, Set<Permission> asks, About about, boolean underACode, Work work) {

        /** A trainee marks oneself, an assessor others: the work tells which of the two it is by the code. */
        static final Set<Permission> MARKING = EnumSet.of(Permission.MARK, Permission.MARK_ONESELF);

        /** By the table, cell by cell. */
        boolean isFor(Who who) {
            return asks.stream().map(permission -> permission.reach(who.role)).anyMatch(reach -> switch (about) {
                case NOTHING -> reach != Reach.NONE;
                case CASE -> who.reachesCase(reach);
                case PERSON -> reach == Reach.ALL || (reach == Reach.OWN && who == Who.TRAINEE);
            });
        }

        @Override
        public String toString() {
            return name;
        }
    }

    void general(Permission asks, String name, Work work) {
        calls.add(new Call(name, EnumSet.of(asks), About.NOTHING, false, work));
    }

    void generalUnderCode(Permission asks, String name, Work work) {
        calls.add(new Call(name, EnumSet.of(asks), About.NOTHING, true, work));
    }

    void anyOf(Set<Permission> asks, String name, Work work) {
        calls.add(new Call(name, asks, About.NOTHING, false, work));
    }

    void ofPerson(Permission asks, String name, Work work) {
        calls.add(new Call(name, EnumSet.of(asks), About.PERSON, false, work));
    }

    void ofCase(Permission asks, String name, Work work) {
        calls.add(new Call(name, EnumSet.of(asks), About.CASE, false, work));
    }

    void ofCase(Set<Permission> asks, String name, Work work) {
        calls.add(new Call(name, asks, About.CASE, false, work));
    }

    void underCode(Permission asks, String name, Work work) {
        underCode(EnumSet.of(asks), name, work);
    }

    void underCode(Set<Permission> asks, String name, Work work) {
        calls.add(new Call(name, asks, About.CASE, true, work));
    }

    /** A code's end that is new each time: letters only, since long numbers are refused as what may be a patient's. */
    static String letters() {
        return ThreadLocalRandom.current()
                .ints(8, 'a', 'z' + 1)
                .mapToObj(Character::toString)
                .collect(Collectors.joining());
    }

    static Object done(Runnable work) {
        work.run();
        return "";
    }

    /** Everybody who tries, and A2 as whom somebody may try. */
    static List<String> everybody() {
        return Stream.concat(Arrays.stream(Who.values()).map(who -> who.code), Stream.of("A2"))
                .toList();
    }
}
