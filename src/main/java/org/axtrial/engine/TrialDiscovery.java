package org.axtrial.engine;

import java.util.ArrayList;
import java.util.List;
import org.axtrial.axis.Axis;
import org.axtrial.script.Discovery;
import org.axtrial.script.ScriptProblem;
import org.axtrial.script.TrialDefinition;
import org.junit.platform.engine.DiscoveryIssue;
import org.junit.platform.engine.EngineDiscoveryRequest;
import org.junit.platform.engine.TestDescriptor;
import org.junit.platform.engine.UniqueId;

/** Builds the tree engine → axis → script → trial. Problems become issues that keep the platform from running anything. */
final class TrialDiscovery {

    private final RunSession session;
    private final EngineDiscoveryRequest request;
    private final UniqueId root;

    TrialDiscovery(RunSession session, EngineDiscoveryRequest request, UniqueId root) {
        this.session = session;
        this.request = request;
        this.root = root;
    }

    AxtrialDescriptor discover() {
        AxtrialDescriptor engine = new AxtrialDescriptor(root, session);
        Selection selection = new Selection(root, request, session);
        List<Discovery> scripts = new ArrayList<>();
        for (String script : selection.scripts()) {
            Discovery discovery = session.library().discover(script).on(session.axisNames());
            scripts.add(discovery);
            for (ScriptProblem problem : discovery.problems()) {
                issue(problem.printed());
            }
        }
        for (Axis axis : session.axes()) {
            addAxis(engine, selection, axis, scripts);
        }
        selection.reportIds();
        boolean healthy = scripts.stream().allMatch(script -> script.problems().isEmpty());
        if (session.axes().isEmpty()) {
            issue("the site file has no axis, so there is nothing to try");
        } else if (healthy && !engine.hasTrials()) {
            issue("there is no trial to run; name scripts that hold trials for the axes " + session.axisNames());
        }
        return engine;
    }

    private void issue(String message) {
        request.getDiscoveryListener()
                .issueEncountered(root, DiscoveryIssue.create(DiscoveryIssue.Severity.ERROR, message));
    }

    private void addAxis(TestDescriptor engine, Selection selection, Axis axis, List<Discovery> scripts) {
        AxisDescriptor axisNode = new AxisDescriptor(root, axis, session.parallel());
        int rank = 0;
        for (Discovery script : scripts) {
            ScriptDescriptor scriptNode = new ScriptDescriptor(
                    axisNode.getUniqueId(), script.script(), session.library().folder());
            for (TrialDefinition trial : script.trials()) {
                TrialDescriptor node = new TrialDescriptor(
                        scriptNode.getUniqueId(),
                        trial,
                        axis,
                        session.axes(trial.with()),
                        rank++,
                        session.library().folder());
                if (trial.isFor(axis.setup().name())
                        && session.wants(
                                script.script(), trial.id(), axis.setup().name())
                        && selection.wants(script.script(), node.getUniqueId())) {
                    scriptNode.addChild(node);
                }
            }
            if (!scriptNode.getChildren().isEmpty()) {
                axisNode.addChild(scriptNode);
            }
        }
        if (!axisNode.getChildren().isEmpty()) {
            engine.addChild(axisNode);
        }
    }
}
