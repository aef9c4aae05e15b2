package org.axtrial.script;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.axtrial.evidence.LimitUse;
import org.axtrial.quantity.Conversion;
import org.axtrial.quantity.NearMiss;
import org.axtrial.quantity.Quantity;

/** The limits that a site sets in place of the defaults of its scripts. */
public final class LimitTable {

    /** Nothing is set, so every default of a script is in force. */
    public static final LimitTable NONE = new LimitTable(List.of());

    private final List<Setting> settings;

    /**
     * One limit that the site sets.
     *
     * @param trial id of the trial
     * @param name name of the limit
     * @param axis the axis it counts for; empty for all
     * @param value in place of the default
     */
    public record Setting(String trial, String name, Optional<String> axis, Quantity value) {

        private boolean concerns(TrialDefinition definition, String on) {
            return trial.equals(definition.id()) && axis.map(on::equals).orElse(true);
        }

        /**
         * What keeps this setting from being used, for the user to read; empty if it is sound.
         *
         * @param trials every trial that the site has
         */
        public Optional<String> trouble(List<TrialDefinition> trials) {
            List<TrialDefinition> meant = trials.stream()
                    .filter(definition -> definition.id().equals(trial))
                    .toList();
            if (meant.isEmpty()) {
                List<String> ids = trials.stream()
                        .filter(definition -> !definition.limits().isEmpty())
                        .map(TrialDefinition::id)
                        .distinct()
                        .toList();
                return Optional.of("no script of this site declares the trial \"" + trial + "\"; "
                        + (ids.isEmpty() ? "none of its trials has limits" : NearMiss.hintOrAll(trial, ids)));
            }
            List<Quantity> defaults = meant.stream()
                    .flatMap(definition -> definition.limit(name).stream())
                    .toList();
            if (defaults.isEmpty()) {
                return Optional.of(unknownName(meant));
            }
            if (axis.isPresent() && meant.stream().noneMatch(definition -> definition.isFor(axis.get()))) {
                return Optional.of("trial \"" + trial + "\" is not for axis " + axis.get() + "; take the line out");
            }
            return defaults.stream()
                    .filter(first -> !CriterionObject.sameKind(first.unit(), value.unit()))
                    .map(first -> "\"" + value + "\" is a " + Arguments.kindOf(value.unit()) + ", but the limit \""
                            + name
                            + "\" of trial \"" + trial + "\" is a " + Arguments.kindOf(first.unit()) + ", \"" + first
                            + "\" in the script; give it in a unit of that kind")
                    .findFirst();
        }

        private String unknownName(List<TrialDefinition> meant) {
            List<String> names = meant.stream()
                    .flatMap(definition -> definition.limits().keySet().stream())
                    .distinct()
                    .toList();
            return "trial \"" + trial + "\" has no limit \"" + name + "\"; "
                    + (names.isEmpty() ? "it declares none" : NearMiss.hintOrAll(name, names));
        }

        /** What keeps this setting from being used on one axis, whose scale may lack a length. */
        public Optional<String> troubleOn(String on, Conversion scale, List<TrialDefinition> trials) {
            for (TrialDefinition definition : trials) {
                Optional<Quantity> first = definition.limit(name);
                if (first.isPresent() && concerns(definition, on) && definition.isFor(on)) {
                    try {
                        scale.convert(value.value(), value.unit(), first.get().unit());
                    } catch (IllegalArgumentException e) {
                        return Optional.of("axis " + on + ": " + e.getMessage());
                    }
                }
            }
            return Optional.empty();
        }
    }

    /** What a site sets, each trial, name and axis once. */
    public LimitTable(List<Setting> settings) {
        this.settings = List.copyOf(settings);
    }

    /** Every limit of a trial as it counts on an axis, in the order of the script. */
    public List<LimitInForce> of(TrialDefinition trial, String axis) {
        List<LimitInForce> limits = new ArrayList<>();
        trial.limits().forEach((name, value) -> limits.add(inForce(trial, axis, name, value)));
        return List.copyOf(limits);
    }

    private LimitInForce inForce(TrialDefinition trial, String axis, String name, Quantity first) {
        List<Setting> mine = settings.stream()
                .filter(setting ->
                        setting.concerns(trial, axis) && setting.name().equals(name))
                .toList();
        return mine.stream()
                .filter(setting -> setting.axis().isPresent())
                .findFirst()
                .or(() -> mine.stream().findFirst())
                .map(setting -> new LimitInForce(
                        name,
                        setting.value(),
                        first,
                        setting.axis().isPresent() ? LimitUse.From.SITE_AXIS : LimitUse.From.SITE))
                .orElseGet(() -> new LimitInForce(name, first, first, LimitUse.From.SCRIPT));
    }
}
