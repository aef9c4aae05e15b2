package org.axtrial.engine;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.platform.engine.DiscoverySelector;
import org.junit.platform.engine.EngineDiscoveryRequest;
import org.junit.platform.engine.SelectorResolutionResult;
import org.junit.platform.engine.UniqueId;
import org.junit.platform.engine.discovery.DirectorySelector;
import org.junit.platform.engine.discovery.FileSelector;
import org.junit.platform.engine.discovery.UniqueIdSelector;

/** Which scripts, and which trials in them, the test platform asks for. */
final class Selection {

    private final UniqueId root;
    private final EngineDiscoveryRequest request;
    /** Scripts that are wanted as a whole. */
    private final Set<String> whole = new LinkedHashSet<>();

    private final Map<UniqueId, UniqueIdSelector> ids = new LinkedHashMap<>();
    private final Set<UniqueId> found = new LinkedHashSet<>();
    private final List<String> scripts;

    Selection(UniqueId root, EngineDiscoveryRequest request, RunSession session) {
        this.root = root;
        this.request = request;
        boolean files = addFiles(session);
        boolean directories = addDirectories(session);
        boolean uniqueIds = addIds();
        if (!files && !directories && !uniqueIds) {
            whole.addAll(session.scripts());
        }
        Set<String> all = new LinkedHashSet<>(whole);
        for (UniqueId id : ids.keySet()) {
            all.addAll(scriptOf(id).map(List::of).orElse(session.scripts()));
        }
        scripts = List.copyOf(all);
    }

    private boolean addFiles(RunSession session) {
        List<FileSelector> selectors = request.getSelectorsByType(FileSelector.class);
        for (FileSelector selector : selectors) {
            Optional<String> name = selector.getRawPath().endsWith(".js")
                    ? session.library().nameOf(selector.getPath())
                    : Optional.empty();
            name.ifPresent(whole::add);
            processed(selector, name.isPresent());
        }
        return !selectors.isEmpty();
    }

    private boolean addDirectories(RunSession session) {
        List<DirectorySelector> selectors = request.getSelectorsByType(DirectorySelector.class);
        for (DirectorySelector selector : selectors) {
            Path directory = selector.getPath();
            List<String> names =
                    directory.toFile().isDirectory() ? session.library().scriptsUnder(directory) : List.of();
            whole.addAll(names);
            processed(selector, !names.isEmpty());
        }
        return !selectors.isEmpty();
    }

    private boolean addIds() {
        for (UniqueIdSelector selector : request.getSelectorsByType(UniqueIdSelector.class)) {
            if (selector.getUniqueId().hasPrefix(root)) {
                ids.put(selector.getUniqueId(), selector);
            }
        }
        return !ids.isEmpty();
    }

    /** Every script that has to be loaded. */
    List<String> scripts() {
        return scripts;
    }

    /** Whether a trial is asked for. */
    boolean wants(String script, UniqueId trial) {
        boolean wanted = whole.contains(script);
        for (UniqueId id : ids.keySet()) {
            if (trial.hasPrefix(id)) {
                found.add(id);
                wanted = true;
            }
        }
        return wanted;
    }

    /** Tells the platform which of its unique ids led to a trial. */
    void reportIds() {
        List<UniqueId> all = new ArrayList<>(ids.keySet());
        for (UniqueId id : all) {
            UniqueIdSelector selector = ids.get(id);
            if (selector != null) {
                processed(selector, found.contains(id));
            }
        }
    }

    private void processed(DiscoverySelector selector, boolean resolved) {
        request.getDiscoveryListener()
                .selectorProcessed(
                        root,
                        selector,
                        resolved ? SelectorResolutionResult.resolved() : SelectorResolutionResult.unresolved());
    }

    private static Optional<String> scriptOf(UniqueId id) {
        return id.getSegments().stream()
                .filter(segment -> segment.getType().equals(ScriptDescriptor.SEGMENT))
                .map(UniqueId.Segment::getValue)
                .findFirst();
    }
}
