package org.axtrial.measure;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.axtrial.quantity.Unit;

/**
 * Accuracy and repeatability of positioning of an axis after ISO 230-2:2014 (formulas from memory). Values from a drive's
 * own feedback show control and not accuracy; {@code source} says which they are. Accuracy, systematic and mean error that
 * do not come from an instrument carry a reservation: they are told, and decide nothing. Repeatability and reversal error
 * compare returns to one place and need none.
 *
 * <p>Uncertainty: what the caller states of the instrument, the resolution at both ends of a difference, and how well n
 * cycles know a mean (s²/n) and a standard deviation (s²/(2(n − 1)), JCGM 100:2008, E.4.3) at the targets that decide.
 * That these targets decide is taken as given.
 *
 * @param unit of targets and deviations; linear axes are told in µm or mm, rotary ones in seconds of arc
 * @param source who read the positions
 * @param resolution smallest step of the readings, not negative
 * @param instrument what makes a difference of two readings uncertain beside that, for example the certificate
 * @param points at least two targets, in growing order, all with the same number of cycles
 */
public record Positioning(
        Unit unit, Source source, double resolution, List<Contribution> instrument, List<PositioningPoint> points) {

    private static final String ONE_CYCLE =
            "a single cycle shows no repeatability; approach each target at least twice, five times by the standard";

    private static final String NEEDS_INSTRUMENT =
            "accuracy needs an external instrument: positions that the drive reports"
                    + " show how well its loop closes, not where the load is; take every position with t.reading";

    public Positioning {
        instrument = List.copyOf(instrument);
        points = List.copyOf(points);
        if (points.size() < 2) {
            throw new IllegalArgumentException("positioning needs at least two targets, got " + points.size());
        }
        for (int i = 1; i < points.size(); i++) {
            if (points.get(i).cycles() != points.get(0).cycles()) {
                throw new IllegalArgumentException("all targets need the same number of cycles, but "
                        + points.get(0).target() + " has " + points.get(0).cycles() + " and "
                        + points.get(i).target() + " has " + points.get(i).cycles());
            }
            if (!(points.get(i).target() > points.get(i - 1).target())) {
                throw new IllegalArgumentException(
                        "targets must grow, but " + points.get(i).target() + " follows "
                                + points.get(i - 1).target());
            }
        }
    }

    /** A value that may be the extreme one, with what makes it uncertain. */
    private record Candidate(double value, List<Contribution> contributions) {}

    /** Bidirectional accuracy A = max(x̄ + 2s) − min(x̄ − 2s) over both directions. */
    public Measurement accuracy() {
        return range(
                "bidirectional accuracy A",
                "Largest mean deviation plus 2 s minus smallest mean deviation minus 2 s, over all targets and both"
                        + " directions (ISO 230-2).",
                bounds(both(), 2),
                bounds(both(), -2),
                true);
    }

    /** Unidirectional accuracy A↑. */
    public Measurement accuracyUp() {
        return accuracy("unidirectional accuracy A↑", "positive", up());
    }

    /** Unidirectional accuracy A↓. */
    public Measurement accuracyDown() {
        return accuracy("unidirectional accuracy A↓", "negative", down());
    }

    /** Bidirectional systematic error E = max x̄ − min x̄ over both directions. */
    public Measurement systematicError() {
        return range(
                "bidirectional systematic error E",
                "Largest minus smallest mean deviation, over all targets and both directions (ISO 230-2).",
                bounds(both(), 0),
                bounds(both(), 0),
                false);
    }

    /** Unidirectional systematic error E↑. */
    public Measurement systematicErrorUp() {
        return systematic("unidirectional systematic error E↑", "positive", up());
    }

    /** Unidirectional systematic error E↓. */
    public Measurement systematicErrorDown() {
        return systematic("unidirectional systematic error E↓", "negative", down());
    }

    /** Mean bidirectional positioning error M: range of the means of both directions. */
    public Measurement meanError() {
        List<Candidate> means = points.stream()
                .map(p -> new Candidate(
                        p.mean(),
                        List.of(
                                mean("mean, positive", up(p)).times(0.5),
                                mean("mean, negative", down(p)).times(0.5))))
                .toList();
        return range(
                "mean bidirectional positioning error M",
                "Largest minus smallest mean of both directions, over all targets (ISO 230-2).",
                means,
                means,
                false);
    }

    /** Bidirectional repeatability R, the largest R_i. */
    public Measurement repeatability() {
        return largest(
                "bidirectional repeatability R",
                "Largest of 2 s↑ + 2 s↓ + |B|, 4 s↑ and 4 s↓ of any target (ISO 230-2).",
                points.stream().map(Positioning::repeatabilityAt).toList(),
                true);
    }

    /** Unidirectional repeatability R↑, the largest 4 s↑. */
    public Measurement repeatabilityUp() {
        return repeatability("unidirectional repeatability R↑", "positive", up());
    }

    /** Unidirectional repeatability R↓, the largest 4 s↓. */
    public Measurement repeatabilityDown() {
        return repeatability("unidirectional repeatability R↓", "negative", down());
    }

    /** Reversal error B, the largest |B_i|. */
    public Measurement reversalError() {
        return largest(
                "reversal error B",
                "Largest size of the difference between the mean deviations of both directions at any target"
                        + " (ISO 230-2).",
                points.stream()
                        .map(p -> new Candidate(Math.abs(p.reversal()), reversalContributions(p)))
                        .toList(),
                false);
    }

    /** Mean reversal error, signed: positive when the axis comes to rest farther after travel in positive direction. */
    public Measurement meanReversalError() {
        double sum = 0;
        List<Contribution> contributions = new ArrayList<>();
        for (PositioningPoint p : points) {
            sum += p.reversal();
            reversalContributions(p).forEach(c -> contributions.add(c.times(1.0 / points.size())));
        }
        return made(
                "mean reversal error",
                "Mean over all targets of the mean deviation in positive minus that in negative direction (ISO 230-2).",
                sum / points.size(),
                pooled(contributions));
    }

    /**
     * The table of the targets: position, means, reversal error, standard deviations, repeatability.
     *
     * @return lines of text with aligned columns
     */
    public String table() {
        return PositioningTable.text(this);
    }

    /**
     * One sentence for each target with its means, reversal error, standard deviations, repeatability and all deviations:
     * what a reader needs to work out the results again.
     */
    public List<String> sentences() {
        return PositioningTable.sentences(this);
    }

    private Measurement accuracy(String name, String direction, List<Scatter> scatters) {
        return range(
                name,
                "Largest mean deviation plus 2 s minus smallest mean deviation minus 2 s in " + direction
                        + " direction (ISO 230-2).",
                bounds(scatters, 2),
                bounds(scatters, -2),
                true);
    }

    private Measurement systematic(String name, String direction, List<Scatter> scatters) {
        return range(
                name,
                "Largest minus smallest mean deviation in " + direction + " direction (ISO 230-2).",
                bounds(scatters, 0),
                bounds(scatters, 0),
                false);
    }

    private Measurement repeatability(String name, String direction, List<Scatter> scatters) {
        return largest(
                name,
                "Largest 4 s of any target in " + direction + " direction (ISO 230-2).",
                scatters.stream()
                        .map(s -> new Candidate(
                                4 * s.deviation(),
                                List.of(deviation("standard deviation", s).times(4))))
                        .toList(),
                true);
    }

    private static Candidate repeatabilityAt(PositioningPoint p) {
        double both = 2 * up(p).deviation() + 2 * down(p).deviation() + Math.abs(p.reversal());
        double above = 4 * up(p).deviation();
        double below = 4 * down(p).deviation();
        if (both >= Math.max(above, below)) {
            List<Contribution> all = new ArrayList<>(reversalContributions(p));
            all.add(deviation("standard deviation, positive", up(p)).times(2));
            all.add(deviation("standard deviation, negative", down(p)).times(2));
            return new Candidate(both, all);
        }
        return above >= below
                ? new Candidate(
                        above,
                        List.of(deviation("standard deviation, positive", up(p)).times(4)))
                : new Candidate(
                        below,
                        List.of(deviation("standard deviation, negative", down(p))
                                .times(4)));
    }

    private static List<Contribution> reversalContributions(PositioningPoint p) {
        return List.of(mean("mean, positive", up(p)), mean("mean, negative", down(p)));
    }

    private static List<Candidate> bounds(List<Scatter> scatters, double deviations) {
        return scatters.stream()
                .map(s -> {
                    List<Contribution> all = new ArrayList<>(List.of(mean("mean", s)));
                    if (deviations != 0) {
                        all.add(deviation("standard deviation", s).times(deviations));
                    }
                    return new Candidate(s.mean() + deviations * s.deviation(), all);
                })
                .toList();
    }

    private Measurement range(
            String name, String definition, List<Candidate> tops, List<Candidate> bottoms, boolean needsCycles) {
        Candidate top = extreme(tops, Comparator.comparingDouble(Candidate::value));
        Candidate bottom = extreme(bottoms, Comparator.comparingDouble(c -> -c.value()));
        List<Contribution> all = new ArrayList<>(top.contributions());
        all.addAll(bottom.contributions());
        return needsCycles && points.get(0).cycles() < 2
                ? missing(name, definition)
                : made(name, definition, top.value() - bottom.value(), all).withReservation(onlyControl());
    }

    /** Ranges over the targets compare places on the machine, which no feedback of its own can prove. */
    private Optional<String> onlyControl() {
        return source == Source.INSTRUMENT ? Optional.empty() : Optional.of(NEEDS_INSTRUMENT);
    }

    private Measurement largest(String name, String definition, List<Candidate> candidates, boolean needsCycles) {
        Candidate largest = extreme(candidates, Comparator.comparingDouble(Candidate::value));
        return needsCycles && points.get(0).cycles() < 2
                ? missing(name, definition)
                : made(name, definition, largest.value(), largest.contributions());
    }

    /** Of targets that are equally extreme the one that is known worst. */
    private static Candidate extreme(List<Candidate> candidates, Comparator<Candidate> order) {
        return candidates.stream()
                .max(order.thenComparingDouble(
                        c -> UncertaintyBudget.of(c.contributions()).combined()))
                .orElseThrow();
    }

    /** Many small contributions of one kind as one line each of positive and negative approaches. */
    private static List<Contribution> pooled(List<Contribution> contributions) {
        UncertaintyBudget all = UncertaintyBudget.of(contributions);
        return List.of(new Contribution(
                "means of all targets",
                Contribution.Evaluation.A,
                contributions.size() + " means",
                all.combined(),
                all.effectiveDegreesOfFreedom()));
    }

    private Measurement made(String name, String definition, double value, List<Contribution> statistics) {
        Draft draft = new Draft(name, definition, unit).source(source).resolution(resolution);
        draft.add(Contribution.triangular(
                "resolution at both ends",
                "one step is " + Printed.brief(resolution, unit),
                2 * Dither.halfWidth(ofAll(), resolution)));
        instrument.forEach(draft::add);
        statistics.forEach(draft::add);
        return draft.value(value);
    }

    private Measurement missing(String name, String definition) {
        return new Draft(name, definition, unit)
                .source(source)
                .resolution(resolution)
                .missing(ONE_CYCLE);
    }

    private static Contribution mean(String name, Scatter s) {
        return s.n() < 2
                ? new Contribution(name, Contribution.Evaluation.A, "a single approach", 0, 1)
                : Contribution.repeatability(
                        name,
                        "s = " + Printed.brief(s.deviation()) + " of " + s.n() + " approaches",
                        s.deviation(),
                        s.n());
    }

    private static Contribution deviation(String name, Scatter s) {
        double freedom = Math.max(1, s.n() - 1);
        return new Contribution(
                name,
                Contribution.Evaluation.A,
                s.n() + " approaches",
                Distribution.NORMAL,
                s.deviation(),
                Math.sqrt(2 * freedom),
                freedom);
    }

    /** Deviation of all approaches about the mean of their own target and direction. */
    private Scatter ofAll() {
        double squares = 0;
        int freedom = 0;
        for (Scatter s : both()) {
            squares += s.deviation() * s.deviation() * (s.n() - 1);
            freedom += s.n() - 1;
        }
        return new Scatter(0, freedom == 0 ? 0 : Math.sqrt(squares / freedom), freedom + 1, 0, Scatter.KNOWN);
    }

    private static Scatter up(PositioningPoint p) {
        return PositioningPoint.of(p.up());
    }

    private static Scatter down(PositioningPoint p) {
        return PositioningPoint.of(p.down());
    }

    private List<Scatter> up() {
        return points.stream().map(Positioning::up).toList();
    }

    private List<Scatter> down() {
        return points.stream().map(Positioning::down).toList();
    }

    private List<Scatter> both() {
        List<Scatter> both = new ArrayList<>(up());
        both.addAll(down());
        return both;
    }
}
