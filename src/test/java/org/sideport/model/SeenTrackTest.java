package org.sideport.model;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.LongRange;
import org.junit.jupiter.api.Test;
import org.sideport.model.SeenTrack.Piece;

class SeenTrackTest {

    private static final DrawnMark ARROW = DrawnMark.of(
            DrawnMark.Kind.ARROW, MarkColour.YELLOW, List.of(new PicturePoint(0.1, 0.1), new PicturePoint(0.2, 0.3)));
    private static final DrawnMark WORDS = DrawnMark.words(MarkColour.GREEN, new PicturePoint(0.5, 0.5), "here");

    private static MediaTime s(double seconds) {
        return MediaTime.ofMicros(Math.round(seconds * 1e6));
    }

    /** Worked by hand: 2 s standing at 10 s, 4 s at half speed from there, 1 s standing at 12 s with a drawing, then on. */
    private static final SeenTrack LESSON = new SeenTrack(List.of(
            new SeenEvent.Stand(0, s(10)),
            new SeenEvent.Run(2_000_000, s(10), 0.5),
            new SeenEvent.Stand(6_000_000, s(12)),
            new SeenEvent.Drawn(6_200_000, ARROW),
            new SeenEvent.Drawn(6_400_000, WORDS),
            new SeenEvent.Removed(6_700_000, ARROW),
            new SeenEvent.Removed(7_000_000, WORDS),
            new SeenEvent.Run(7_000_000, s(12), 1)));

    @Test
    void whatWasSeenIsKnownAtEveryMoment() {
        assertThat(LESSON.seenAt(-5)).isEqualTo(new SeenTrack.Seen(s(10), 0, List.of()));
        assertThat(LESSON.seenAt(1_999_999)).isEqualTo(new SeenTrack.Seen(s(10), 0, List.of()));
        assertThat(LESSON.seenAt(3_000_000)).isEqualTo(new SeenTrack.Seen(s(10.5), 0.5, List.of()));
        assertThat(LESSON.seenAt(5_999_998).time()).isEqualTo(MediaTime.ofMicros(11_999_999));
        assertThat(LESSON.seenAt(6_000_000)).isEqualTo(new SeenTrack.Seen(s(12), 0, List.of()));
        assertThat(LESSON.seenAt(6_300_000).marks()).containsExactly(ARROW);
        assertThat(LESSON.seenAt(6_500_000).marks()).containsExactly(ARROW, WORDS);
        assertThat(LESSON.seenAt(6_800_000)).isEqualTo(new SeenTrack.Seen(s(12), 0, List.of(WORDS)));
        assertThat(LESSON.seenAt(8_500_000)).isEqualTo(new SeenTrack.Seen(s(13.5), 1, List.of()));
    }

    @Test
    void piecesAreTheStretchesOfStandingAndRunning() {
        assertThat(LESSON.pieces(9_000_000))
                .containsExactly(
                        new Piece(0, 2_000_000, s(10), 0),
                        new Piece(2_000_000, 6_000_000, s(10), 0.5),
                        new Piece(6_000_000, 7_000_000, s(12), 0),
                        new Piece(7_000_000, 9_000_000, s(12), 1));
        assertThat(LESSON.pieces(9_000_000)).extracting(Piece::end).containsExactly(s(10), s(12), s(12), s(14));
        assertThat(LESSON.pieces(1_000_000)).containsExactly(new Piece(0, 1_000_000, s(10), 0));
    }

    @Test
    void atTheSameMomentTheLaterChangeHolds() {
        SeenTrack track = new SeenTrack(List.of(new SeenEvent.Stand(0, s(1)), new SeenEvent.Run(0, s(4), 2)));
        assertThat(track.seenAt(0).time()).isEqualTo(s(4));
        assertThat(track.pieces(1_000_000)).containsExactly(new Piece(0, 1_000_000, s(4), 2));
    }

    @Test
    void aTrackSaysFirstWhatPictureWasThereAndIsInOrder() {
        assertThatIllegalArgumentException().isThrownBy(() -> new SeenTrack(List.of()));
        assertThatIllegalArgumentException().isThrownBy(() -> new SeenTrack(List.of(new SeenEvent.Drawn(0, ARROW))));
        assertThatIllegalArgumentException().isThrownBy(() -> new SeenTrack(List.of(new SeenEvent.Stand(5, s(0)))));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new SeenTrack(List.of(
                        new SeenEvent.Stand(0, s(0)), new SeenEvent.Stand(9, s(0)), new SeenEvent.Stand(8, s(0)))));
        assertThatIllegalArgumentException().isThrownBy(() -> new SeenEvent.Run(0, s(0), 0));
    }

    @Provide
    Arbitrary<SeenTrack> tracks() {
        Arbitrary<SeenEvent> step = Combinators.combine(
                        Arbitraries.longs().between(0, 5_000_000),
                        Arbitraries.integers().between(0, 3),
                        Arbitraries.longs().between(0, 3_600_000_000L),
                        Arbitraries.of(0.25, 0.5, 1.0, 2.0, 8.0))
                .as((gap, kind, time, rate) -> switch (kind) {
                    case 0 -> new SeenEvent.Stand(gap, MediaTime.ofMicros(time));
                    case 1 -> new SeenEvent.Run(gap, MediaTime.ofMicros(time), rate);
                    case 2 -> new SeenEvent.Drawn(gap, time % 2 == 0 ? ARROW : WORDS);
                    default -> new SeenEvent.Removed(gap, time % 2 == 0 ? ARROW : WORDS);
                });
        return step.list().ofMaxSize(30).map(steps -> {
            List<SeenEvent> events = new ArrayList<>();
            events.add(new SeenEvent.Stand(0, MediaTime.ZERO));
            long at = 0;
            for (SeenEvent event : steps) {
                at += event.atUs();
                events.add(event.movedTo(at));
            }
            return new SeenTrack(events);
        });
    }

    @Property(tries = 200)
    void piecesCoverTheVoiceWithoutGapsAndAgreeWithEveryMoment(
            @ForAll("tracks") SeenTrack track,
            @ForAll @LongRange(min = 1, max = 60_000_000) long length,
            @ForAll @LongRange(min = 0, max = 999_999) long part) {
        List<Piece> pieces = track.pieces(length);
        long at = 0;
        for (Piece piece : pieces) {
            assertThat(piece.fromUs()).isEqualTo(at);
            assertThat(piece.toUs()).isGreaterThan(at);
            at = piece.toUs();
            long moment = piece.fromUs() + (piece.toUs() - 1 - piece.fromUs()) * part / 1_000_000;
            SeenTrack.Seen seen = track.seenAt(moment);
            assertThat(seen.rate()).isEqualTo(piece.rate());
            assertThat(seen.time().micros() - piece.time().micros())
                    .isEqualTo(Math.round(piece.rate() * (moment - piece.fromUs())));
        }
        assertThat(at).isEqualTo(length);
    }

    @Property(tries = 200)
    void cuttingATrackChangesNothingBeforeTheCut(
            @ForAll("tracks") SeenTrack track,
            @ForAll @LongRange(min = 0, max = 60_000_000) long length,
            @ForAll @LongRange(min = 0, max = 60_000_000) long moment) {
        long before = Math.min(moment, length);
        assertThat(track.upTo(length).seenAt(before)).isEqualTo(track.seenAt(before));
    }

    @Property(tries = 200)
    void noMoreMarksAreSeenThanWereDrawn(
            @ForAll("tracks") SeenTrack track, @ForAll @LongRange(min = 0, max = 200_000_000) long moment) {
        long drawn = track.events().stream()
                .filter(e -> e instanceof SeenEvent.Drawn && e.atUs() <= moment)
                .count();
        long removed = track.events().stream()
                .filter(e -> e instanceof SeenEvent.Removed && e.atUs() <= moment)
                .count();
        assertThat((long) track.seenAt(moment).marks().size())
                .isLessThanOrEqualTo(drawn)
                .isGreaterThanOrEqualTo(drawn - removed);
    }
}
