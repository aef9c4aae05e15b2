package org.axtrial;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static java.util.Map.entry;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.AccessTarget;
import com.tngtech.archunit.core.domain.Dependency;
import com.tngtech.archunit.core.domain.JavaAccess;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.properties.HasName;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.lang.ConditionEvent;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import java.util.Arrays;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import org.jspecify.annotations.NullMarked;

/**
 * The rules of the package layout, for the packages below one base package. A layer is the first part of a package name
 * after the base package; sub-packages belong to their layer.
 */
final class ArchitectureRules {

    private static final Set<String> EVERY_LAYER = Set.of(
            "quantity",
            "time",
            "registers",
            "trace",
            "link",
            "plant",
            "drive",
            "sim",
            "measure",
            "axis",
            "evidence",
            "site",
            "script",
            "acceptance",
            "report",
            "signing",
            "survey",
            "engine");

    /** Each layer with the other layers it may use. */
    static final Map<String, Set<String>> LAYERS = Map.ofEntries(
            entry("quantity", Set.of()),
            entry("time", Set.of()),
            entry("registers", Set.of("quantity")),
            entry("trace", Set.of("quantity", "time")),
            entry("link", Set.of("time")),
            entry("drive", Set.of("link", "registers", "time", "quantity")),
            entry("plant", Set.of()),
            entry("sim", Set.of("plant", "registers", "quantity", "time", "link")),
            entry("measure", Set.of("trace", "quantity")),
            entry("axis", Set.of("drive", "trace", "quantity", "time")),
            entry("evidence", Set.of("measure", "trace", "quantity", "time")),
            entry("site", Set.of("axis", "drive", "link", "registers", "sim", "plant", "measure", "quantity", "time")),
            entry("script", Set.of("axis", "measure", "trace", "evidence", "quantity", "time")),
            entry("acceptance", Set.of("evidence", "measure")),
            entry("report", Set.of("acceptance", "evidence", "measure", "trace", "quantity")),
            entry("signing", Set.of("evidence", "measure")),
            entry("survey", Set.of("drive", "link", "registers", "measure", "evidence", "axis", "quantity", "time")),
            entry("engine", Set.of("script", "site", "axis", "evidence", "measure", "quantity", "time")),
            entry("cli", EVERY_LAYER));

    private static final Set<String> SOCKET_CLASSES = Set.of(
            "java.net.Socket",
            "java.net.ServerSocket",
            "java.net.DatagramSocket",
            "java.net.MulticastSocket",
            "java.net.URLConnection",
            "java.net.HttpURLConnection",
            "java.nio.channels.SocketChannel",
            "java.nio.channels.ServerSocketChannel",
            "java.nio.channels.DatagramChannel",
            "java.nio.channels.AsynchronousSocketChannel",
            "java.nio.channels.AsynchronousServerSocketChannel",
            "javax.net.SocketFactory",
            "javax.net.ServerSocketFactory");

    private static final Set<String> WAITS = Set.of(
            "java.lang.Thread.sleep",
            "java.util.concurrent.TimeUnit.sleep",
            "java.util.concurrent.locks.LockSupport.parkNanos",
            "java.util.concurrent.locks.LockSupport.parkUntil");

    private static final Set<String> CLOCK_READINGS =
            Set.of("java.lang.System.nanoTime", "java.lang.System.currentTimeMillis", "java.util.Calendar.getInstance");

    private static final Set<String> STREAMS_AND_EXIT = Set.of(
            "java.lang.System.out",
            "java.lang.System.err",
            "java.lang.System.in",
            "java.lang.System.console",
            "java.lang.System.exit",
            "java.lang.Runtime.exit",
            "java.lang.Runtime.halt");

    private final String base;

    ArchitectureRules(String base) {
        this.base = base;
    }

    ArchRule layersUseOnlyWhatTheyMay() {
        return classes().should(new ArchCondition<JavaClass>("use only the layers that the layer table allows") {
            @Override
            public void check(JavaClass origin, ConditionEvents events) {
                Set<String> allowed = LAYERS.getOrDefault(layerOf(origin), Set.of());
                for (Dependency dependency : origin.getDirectDependenciesFromSelf()) {
                    JavaClass target = dependency.getTargetClass().getBaseComponentType();
                    String layer = layerOf(target);
                    boolean ours = target.getPackageName().startsWith(base);
                    if (ours && !layer.equals(layerOf(origin)) && !allowed.contains(layer)) {
                        events.add(violation(origin, dependency.getDescription()));
                    }
                }
            }
        });
    }

    ArchRule everyPackageIsDeclared() {
        return eachClassShould("live in a package of the layer table", type -> LAYERS.containsKey(layerOf(type)));
    }

    ArchRule everyPackageIsNullMarked() {
        return eachClassShould(
                "live in a @NullMarked package", type -> type.getPackage().isAnnotatedWith(NullMarked.class));
    }

    ArchRule layersHaveNoCycles() {
        return slices().matching(base + ".(*)..").should().beFreeOfCycles().allowEmptyShould(true);
    }

    ArchRule modbusLibraryOnlyInLink() {
        return dependOn("j2mod", name -> name.startsWith("com.ghgande.j2mod."), "link");
    }

    ArchRule serialLibraryOnlyInLink() {
        return dependOn("jSerialComm", name -> name.startsWith("com.fazecast."), "link");
    }

    ArchRule scriptLibraryOnlyInScript() {
        return dependOn("GraalVM", name -> name.startsWith("org.graalvm."), "script");
    }

    ArchRule pdfPrinterOnlyInReport() {
        return dependOn("the printer of PDF", name -> name.startsWith("com.openhtmltopdf."), "report");
    }

    ArchRule pdfLibraryOnlyInReportAndSigning() {
        return dependOn("the PDF library", name -> name.startsWith("org.apache.pdfbox."), "report", "signing");
    }

    ArchRule testReportingLibraryOnlyInEvidence() {
        return dependOn(
                "the writer of Open Test Reporting", name -> name.startsWith("org.opentest4j.reporting."), "evidence");
    }

    ArchRule testPlatformOnlyInEngineAndCli() {
        return dependOn("the JUnit Platform", name -> name.startsWith("org.junit.platform."), "engine", "cli");
    }

    ArchRule socketsOnlyInLinkSimAndSigning() {
        return dependOn(
                "sockets",
                name -> SOCKET_CLASSES.contains(name)
                        || name.startsWith("java.net.http.")
                        || name.startsWith("javax.net.ssl."),
                "link",
                "sim",
                "signing");
    }

    ArchRule signatureLibraryOnlyInSigning() {
        return dependOn("Bouncy Castle", name -> name.startsWith("org.bouncycastle."), "signing");
    }

    ArchRule streamsAndExitOnlyInCli() {
        return access(
                "the standard streams or end the JVM",
                target -> STREAMS_AND_EXIT.contains(nameOf(target)) || printsStackTrace(target),
                "cli");
    }

    ArchRule waitingOnlyInTime() {
        return access("sleep", target -> WAITS.contains(nameOf(target)), "time");
    }

    ArchRule clockReadingOnlyInTime() {
        return access("the clock", ArchitectureRules::readsTheClock, "time");
    }

    private static boolean readsTheClock(AccessTarget target) {
        String owner = target.getOwner().getName();
        boolean systemClock = owner.equals("java.time.Clock")
                && (target.getName().startsWith("system") || target.getName().startsWith("tick"));
        boolean now = owner.startsWith("java.time.") && target.getName().equals("now") && !takesClock(target);
        boolean newDate = owner.equals("java.util.Date")
                && isConstructor(target)
                && parametersOf(target).isEmpty();
        return CLOCK_READINGS.contains(nameOf(target)) || systemClock || now || newDate;
    }

    /** With a clock handed in, {@code now} reads that clock, which may be a virtual one. */
    private static boolean takesClock(AccessTarget target) {
        return parametersOf(target).equals("java.time.Clock");
    }

    private static boolean isConstructor(AccessTarget target) {
        return target instanceof AccessTarget.ConstructorCallTarget
                || target instanceof AccessTarget.ConstructorReferenceTarget;
    }

    private static boolean printsStackTrace(AccessTarget target) {
        return target.getName().equals("printStackTrace")
                && parametersOf(target).isEmpty()
                && target.getOwner().isAssignableTo(Throwable.class);
    }

    private static String parametersOf(AccessTarget target) {
        return target instanceof AccessTarget.CodeUnitAccessTarget unit
                ? String.join(
                        ",",
                        unit.getRawParameterTypes().stream()
                                .map(HasName::getName)
                                .toList())
                : "";
    }

    private static String nameOf(AccessTarget target) {
        return target.getOwner().getName() + "." + target.getName();
    }

    private ArchRule dependOn(String what, Predicate<String> className, String... layers) {
        return classes()
                .that(areOutside(layers))
                .should(new ArchCondition<JavaClass>("not depend on " + what) {
                    @Override
                    public void check(JavaClass origin, ConditionEvents events) {
                        origin.getDirectDependenciesFromSelf().stream()
                                .filter(it -> className.test(it.getTargetClass()
                                        .getBaseComponentType()
                                        .getName()))
                                .forEach(it -> events.add(violation(origin, it.getDescription())));
                    }
                })
                .allowEmptyShould(true);
    }

    private ArchRule access(String what, Predicate<AccessTarget> forbidden, String... layers) {
        return classes()
                .that(areOutside(layers))
                .should(new ArchCondition<JavaClass>("not access " + what) {
                    @Override
                    public void check(JavaClass origin, ConditionEvents events) {
                        for (JavaAccess<?> access : origin.getAccessesFromSelf()) {
                            if (forbidden.test(access.getTarget())) {
                                events.add(violation(origin, access.getDescription()));
                            }
                        }
                    }
                })
                .allowEmptyShould(true);
    }

    private ArchRule eachClassShould(String description, Predicate<JavaClass> condition) {
        return classes().should(new ArchCondition<JavaClass>(description) {
            @Override
            public void check(JavaClass type, ConditionEvents events) {
                if (!condition.test(type)) {
                    events.add(violation(type, "does not " + description));
                }
            }
        });
    }

    private DescribedPredicate<JavaClass> areOutside(String... layers) {
        Set<String> names = Set.of(layers);
        return DescribedPredicate.describe(
                "are outside of " + Arrays.toString(layers), type -> !names.contains(layerOf(type)));
    }

    /** The layer of a class, or an empty text for one outside of the base package or directly in it. */
    private String layerOf(JavaClass type) {
        String name = type.getPackageName();
        return name.startsWith(base + ".") ? name.substring(base.length() + 1).split("\\.", 2)[0] : "";
    }

    /** The class comes first, so that a test can see who broke the rule. */
    private static ConditionEvent violation(JavaClass origin, String what) {
        return SimpleConditionEvent.violated(origin, origin.getName() + ": " + what);
    }
}
