package org.sideport.timing;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.sideport.model.MediaTime;
import org.sideport.timing.TimeMap.Kind;
import org.sideport.timing.TimeMap.Piece;

/** What must hold of any two taggings. */
class TimeMapPropertyTest {

    private record Pair(List<Episode> left, long leftEnd, List<Episode> right, long rightEnd) {
        TimeMap map() {
            return TimeMap.aligned(left, MediaTime.ofMicros(leftEnd), right, MediaTime.ofMicros(rightEnd));
        }
    }

    private static List<Episode> episodes(Random random) {
        List<Episode> all = new ArrayList<>();
        long at = 0;
        int n = random.nextInt(12);
        for (int i = 0; i < n; i++) {
            at += random.nextInt(3) == 0 ? 0 : random.nextInt(20_000_000);
            long end = at + 1 + random.nextInt(60_000_000);
            all.add(new Episode(String.valueOf((char) ('a' + random.nextInt(5))), at, end));
            at = end;
        }
        return all;
    }

    private static long end(List<Episode> episodes, Random random) {
        long last = episodes.isEmpty() ? 0 : episodes.get(episodes.size() - 1).endUs();
        return last + (random.nextInt(3) == 0 ? 0 : random.nextInt(40_000_000));
    }

    private static Pair pair(long seed) {
        Random random = new Random(seed);
        List<Episode> left = episodes(random);
        List<Episode> right = episodes(random);
        return new Pair(left, end(left, random), right, end(right, random));
    }

    @Property(tries = 400)
    void thePiecesCoverBothRecordingsWithoutGapOrOverlap(@ForAll long seed) {
        Pair pair = pair(seed);
        long left = 0;
        long right = 0;
        for (Piece piece : pair.map().pieces()) {
            assertThat(piece.leftStartUs()).isEqualTo(left);
            assertThat(piece.rightStartUs()).isEqualTo(right);
            left = piece.leftEndUs();
            right = piece.rightEndUs();
        }
        assertThat(left).isEqualTo(pair.leftEnd());
        assertThat(right).isEqualTo(pair.rightEnd());
    }

    @Property(tries = 400)
    void everyEpisodeOfBothSidesIsInOnePieceExactly(@ForAll long seed) {
        Pair pair = pair(seed);
        List<Episode> left = new ArrayList<>();
        List<Episode> right = new ArrayList<>();
        for (Piece piece : pair.map().pieces()) {
            if (piece.label() != null && piece.kind() != Kind.RIGHT_ONLY) {
                left.add(new Episode(piece.label(), piece.leftStartUs(), piece.leftEndUs()));
            }
            if (piece.label() != null && piece.kind() != Kind.LEFT_ONLY) {
                right.add(new Episode(piece.label(), piece.rightStartUs(), piece.rightEndUs()));
            }
        }
        assertThat(left).isEqualTo(pair.left());
        assertThat(right).isEqualTo(pair.right());
    }

    @Property(tries = 200)
    void laterOnTheLeftIsNeverEarlierOnTheRight(@ForAll long seed) {
        Pair pair = pair(seed);
        TimeMap map = pair.map();
        Random random = new Random(seed ^ 1);
        long before = 0;
        long[] times = random.longs(60, 0, pair.leftEnd() + 1).sorted().toArray();
        for (long time : times) {
            long now = map.toRight(MediaTime.ofMicros(time)).time().micros();
            assertThat(now).isBetween(before, pair.rightEnd());
            before = now;
        }
    }

    /** A microsecond of rounding on the right is as much on the left as the left is slower there, at most. */
    @Property(tries = 200)
    void thereAndBackIsTheSameMomentWhereBothSidesMove(@ForAll long seed) {
        Pair pair = pair(seed);
        TimeMap map = pair.map();
        Random random = new Random(seed ^ 2);
        for (Piece piece : map.pieces()) {
            if (piece.kind() == Kind.PHASE || piece.kind() == Kind.IDLE) {
                long time = piece.leftStartUs() + random.nextLong(piece.leftEndUs() - piece.leftStartUs());
                TimeMap.Place there = map.toRight(MediaTime.ofMicros(time));
                if (there.time().micros() == piece.rightEndUs()) {
                    continue; // rounded onto the next piece
                }
                long back = map.toLeft(there.time()).time().micros();
                assertThat((double) Math.abs(back - time)).isLessThanOrEqualTo(1 + 0.5 / piece.rate());
            }
        }
    }

    @Property(tries = 200)
    void theInverseOfTheInverseIsTheMap(@ForAll long seed) {
        TimeMap map = pair(seed).map();
        assertThat(map.inverse().inverse().pieces()).isEqualTo(map.pieces());
    }

    @Property(tries = 200)
    void aTaggingAgainstItselfIsItself(@ForAll long seed) {
        Pair pair = pair(seed);
        TimeMap map = TimeMap.aligned(
                pair.left(), MediaTime.ofMicros(pair.leftEnd()), pair.left(), MediaTime.ofMicros(pair.leftEnd()));
        assertThat(map.matched()).isEqualTo(pair.left().size());
        Random random = new Random(seed ^ 3);
        random.longs(20, 0, pair.leftEnd() + 1)
                .forEach(time -> assertThat(
                                map.toRight(MediaTime.ofMicros(time)).time().micros())
                        .isEqualTo(time));
    }

    /** The best total is known from trying every way to match: small cases only. */
    @Property(tries = 200)
    void noOtherMatchingHasMoreTimeInCommon(@ForAll long seed) {
        Pair pair = pair(seed);
        List<Episode> left = pair.left().subList(0, Math.min(6, pair.left().size()));
        List<Episode> right = pair.right().subList(0, Math.min(6, pair.right().size()));
        long found = EpisodeMatch.of(left, right).stream()
                .mapToLong(p -> Math.min(
                        left.get(p.left()).lengthUs(), right.get(p.right()).lengthUs()))
                .sum();
        assertThat(found).isEqualTo(best(left, right));
    }

    private static long best(List<Episode> left, List<Episode> right) {
        if (left.isEmpty() || right.isEmpty()) {
            return 0;
        }
        List<Episode> rest = left.subList(1, left.size());
        long best = best(rest, right);
        for (int j = 0; j < right.size(); j++) {
            if (right.get(j).label().equals(left.get(0).label())) {
                best = Math.max(
                        best,
                        Math.min(left.get(0).lengthUs(), right.get(j).lengthUs())
                                + best(rest, right.subList(j + 1, right.size())));
            }
        }
        return best;
    }
}
