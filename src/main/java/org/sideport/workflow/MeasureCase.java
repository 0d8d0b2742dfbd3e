package org.sideport.workflow;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.MeasuredShape;
import org.sideport.model.Measurement;
import org.sideport.model.MediaTime;
import org.sideport.model.PicturePoint;
import org.sideport.model.Plural;
import org.sideport.model.Recording;
import org.sideport.model.SurgicalCase;
import org.sideport.model.WhiteToWhite;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.geometry.EllipseFit;
import org.sideport.stats.geometry.Point;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Measures on stills of a case and keeps the results. A scale holds on the frame whose limbus it was made from, only. */
public final class MeasureCase {

    /** Id of the case descriptor that holds an eye's own white-to-white distance, mm. */
    static final String OWN_WIDTH = "white_to_white_mm";

    /**
     * What is to be measured.
     *
     * @param frame start of the frame
     * @param displayWidth width of the displayed picture in square pixels
     * @param displayHeight its height
     * @param width of the cornea, for a limbus; {@code null} to take what is known of this eye, else the mean of people
     */
    public record Wanted(
            MediaTime frame,
            double displayWidth,
            double displayHeight,
            MeasuredShape shape,
            List<PicturePoint> points,
            @Nullable WhiteToWhite width) {

        public Wanted {
            points = List.copyOf(points);
        }
    }

    private final Workspace workspace;

    public MeasureCase(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * All measurements of a case by frame.
     *
     * @throws InputException if there is no such case
     */
    public List<Measurement> of(String caseCode) {
        return workspace.read(stores -> {
            Access.require(stores, Permission.SEE_CASE, caseCode);
            return stores.measurements().of(caseCode);
        });
    }

    /**
     * The eye's own white-to-white distance, from its case's reading or from the last limbus that was given one; else the
     * mean of people.
     *
     * @throws InputException if there is no such case
     */
    public WhiteToWhite widthOf(String caseCode) {
        Access.require(workspace, Permission.SEE_CASE, caseCode);
        SurgicalCase surgicalCase = workspace.read(stores -> stores.cases().get(caseCode));
        String reading = surgicalCase.descriptors().get(OWN_WIDTH);
        if (reading != null) {
            try {
                return new WhiteToWhite(
                        Double.parseDouble(reading.strip().replace(',', '.')), WhiteToWhite.READING_SD, true);
            } catch (NumberFormatException e) {
                throw new InputException(
                        "\"" + reading + "\" is no white-to-white distance",
                        "case " + caseCode,
                        "write mm, such as 11.8");
            }
        }
        return of(caseCode).stream()
                .map(Measurement::scale)
                .filter(width -> width != null && width.own())
                .reduce((first, second) -> second)
                .map(Objects::requireNonNull)
                .orElse(WhiteToWhite.POPULATION);
    }

    /**
     * Measures and keeps the result.
     *
     * @param person code of who marked the points
     * @throws InputException if there is no such case or frame, the points do not do, or the frame has no scale of its own
     */
    public Measurement add(String caseCode, String person, Wanted wanted) {
        String who = Codes.require("a person", person);
        requireMay(caseCode, who);
        requireFrame(caseCode, wanted.frame());
        int count = wanted.points().size();
        if (count < wanted.shape().fewestPoints() || count > wanted.shape().mostPoints()) {
            throw new InputException(
                    wanted.shape().id() + " with " + Plural.of(count, "point"),
                    null,
                    "mark " + wanted.shape().fewestPoints() + " or more");
        }
        Measurement made =
                wanted.shape() == MeasuredShape.LIMBUS ? limbus(caseCode, who, wanted) : other(caseCode, who, wanted);
        workspace.change(stores -> stores.measurements().add(caseCode, made));
        return made;
    }

    private void requireMay(String caseCode, String person) {
        Access.requireOwn(workspace.caller(), person);
        Access.require(workspace, Permission.MEASURE, caseCode);
    }

    private void requireFrame(String caseCode, MediaTime frame) {
        Recording recording =
                workspace.read(stores -> stores.cases().get(caseCode)).recording();
        if (recording == null || !frame.isBefore(recording.duration())) {
            throw new InputException(
                    "case " + caseCode + " has no picture at " + frame.toClockText(),
                    null,
                    recording == null
                            ? "it has no recording"
                            : "its recording ends at " + recording.duration().toClockText());
        }
    }

    private Measurement limbus(String caseCode, String who, Wanted wanted) {
        WhiteToWhite given = wanted.width();
        WhiteToWhite width = given == null ? widthOf(caseCode) : given;
        List<Point> points = pixels(wanted.points(), wanted.displayWidth(), wanted.displayHeight());
        LimbusScale scale = required(LimbusScale.of(points, width));
        StillMeasures found = required(StillMeasures.ofLimbus(points, width));
        List<String> warnings = new ArrayList<>(found.warnings());
        Measurement earlier = of(caseCode).stream()
                .filter(m -> m.shape() == MeasuredShape.LIMBUS && !m.frame().equals(wanted.frame()))
                .reduce((first, second) -> second)
                .orElse(null);
        if (earlier != null && scale.hasOtherZoomThan(scaleOf(earlier))) {
            warnings.add(String.format(
                    Locale.ROOT,
                    "The zoom differs from that at %s: the limbus is %.0f px wide here and %.0f px there.",
                    earlier.frame().toClockText(),
                    scale.widthPx(),
                    scaleOf(earlier).widthPx()));
        }
        return measurement(who, wanted, width, new StillMeasures(found.values(), found.method(), warnings));
    }

    private Measurement other(String caseCode, String who, Wanted wanted) {
        List<Measurement> known = of(caseCode);
        Measurement limbus = last(known, MeasuredShape.LIMBUS, wanted.frame());
        if (limbus == null && wanted.shape() != MeasuredShape.ANGLE) {
            Measurement elsewhere = known.stream()
                    .filter(m -> m.shape() == MeasuredShape.LIMBUS)
                    .reduce((first, second) -> second)
                    .orElse(null);
            throw new InputException(
                    elsewhere == null
                            ? "this frame has no scale yet"
                            : "this frame has no scale: the limbus was outlined at "
                                    + elsewhere.frame().toClockText() + ", and zoom or focus may have changed since",
                    null,
                    "outline the limbus on this very frame first");
        }
        Measurement pupil = last(known, MeasuredShape.PUPIL, wanted.frame());
        StillMeasures found = required(StillMeasures.of(
                wanted.shape(),
                pixels(wanted.points(), wanted.displayWidth(), wanted.displayHeight()),
                limbus == null ? null : scaleOf(limbus),
                pupil == null ? null : pupilOf(pupil)));
        return measurement(who, wanted, null, found);
    }

    private static @Nullable Measurement last(List<Measurement> known, MeasuredShape shape, MediaTime frame) {
        return known.stream()
                .filter(m -> m.shape() == shape && m.frame().equals(frame))
                .reduce((first, second) -> second)
                .orElse(null);
    }

    private static EllipseFit pupilOf(Measurement pupil) {
        return required(StillMeasures.fit(pixels(pupil.points(), pupil.displayWidth(), pupil.displayHeight())));
    }

    private static Measurement measurement(
            String who, Wanted wanted, @Nullable WhiteToWhite width, StillMeasures found) {
        return new Measurement(
                UUID.randomUUID().toString(),
                who,
                wanted.frame(),
                wanted.displayWidth(),
                wanted.displayHeight(),
                wanted.shape(),
                wanted.points(),
                width,
                found.values(),
                found.method(),
                found.warnings());
    }

    /** The scale that a stored limbus gives. */
    public static LimbusScale scaleOf(Measurement limbus) {
        return required(LimbusScale.of(
                pixels(limbus.points(), limbus.displayWidth(), limbus.displayHeight()),
                Objects.requireNonNull(limbus.scale())));
    }

    /** Places on the picture in its square pixels. */
    public static List<Point> pixels(List<PicturePoint> points, double displayWidth, double displayHeight) {
        return points.stream()
                .map(p -> new Point(p.x() * displayWidth, p.y() * displayHeight))
                .toList();
    }

    /**
     * Removes a measurement of one's own.
     *
     * @throws InputException if it is somebody else's, is gone, or is the scale of other measurements
     */
    public void remove(String caseCode, String person, Measurement gone) {
        requireMay(caseCode, person);
        if (!gone.author().equals(person)) {
            throw new InputException("this was measured by " + gone.author(), null, "measure it yourself instead");
        }
        workspace.change(stores -> {
            List<Measurement> known = stores.measurements().of(caseCode);
            if (known.stream().noneMatch(m -> m.id().equals(gone.id()))) {
                throw new InputException("that measurement is no longer there", null, "look at the list again");
            }
            boolean lastScale = gone.shape() == MeasuredShape.LIMBUS
                    && known.stream()
                            .filter(m -> m.frame().equals(gone.frame()) && !m.id().equals(gone.id()))
                            .noneMatch(m -> m.shape() == MeasuredShape.LIMBUS);
            if (lastScale
                    && known.stream()
                            .anyMatch(m -> m.frame().equals(gone.frame())
                                    && m.shape() != MeasuredShape.LIMBUS
                                    && m.shape() != MeasuredShape.ANGLE)) {
                throw new InputException(
                        "other measurements on this frame rest on this scale", null, "remove those first");
            }
            stores.measurements().delete(gone);
        });
    }

    /**
     * Keeps a removed measurement of one's own again, as it was.
     *
     * @throws InputException if it is somebody else's, or there is no such case
     */
    public void putBack(String caseCode, String person, Measurement removed) {
        requireMay(caseCode, person);
        if (!removed.author().equals(person)) {
            throw new InputException("this was measured by " + removed.author(), null, "let them put it back");
        }
        workspace.change(stores -> {
            if (stores.measurements().find(removed.id()).isEmpty()) {
                stores.measurements().add(caseCode, removed);
            }
        });
    }

    private static <T> T required(Outcome<T> outcome) {
        if (outcome instanceof Outcome.Refused<T> refused) {
            Refusal why = refused.refusal();
            throw new InputException(why.why(), null, why.remedy());
        }
        return outcome.orElseThrow();
    }
}
