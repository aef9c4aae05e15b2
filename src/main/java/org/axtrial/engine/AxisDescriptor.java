package org.axtrial.engine;

import java.util.LinkedHashSet;
import java.util.Set;
import org.axtrial.axis.Axis;
import org.junit.platform.engine.UniqueId;
import org.junit.platform.engine.support.descriptor.AbstractTestDescriptor;
import org.junit.platform.engine.support.hierarchical.ExclusiveResource;
import org.junit.platform.engine.support.hierarchical.ExclusiveResource.LockMode;
import org.junit.platform.engine.support.hierarchical.Node;

/** All trials of one axis. Axes run beside each other, the trials of one axis one after the other. */
final class AxisDescriptor extends AbstractTestDescriptor implements Node<RunContext> {

    static final String SEGMENT = "axis";

    /** Held by every axis when only one may move at a time. */
    private static final ExclusiveResource MACHINE = new ExclusiveResource("machine", LockMode.READ_WRITE);

    private final Axis axis;
    private final boolean parallel;

    AxisDescriptor(UniqueId parent, Axis axis, boolean parallel) {
        super(
                parent.append(SEGMENT, axis.setup().name()),
                "axis " + axis.setup().name());
        this.axis = axis;
        this.parallel = parallel;
    }

    Axis axis() {
        return axis;
    }

    @Override
    public Type getType() {
        return Type.CONTAINER;
    }

    @Override
    public ExecutionMode getExecutionMode() {
        return ExecutionMode.CONCURRENT;
    }

    @Override
    public Set<ExclusiveResource> getExclusiveResources() {
        Set<ExclusiveResource> resources = new LinkedHashSet<>();
        resources.add(new ExclusiveResource("axis:" + axis.setup().name(), LockMode.READ_WRITE));
        if (!parallel) {
            resources.add(MACHINE);
        }
        return resources;
    }
}
