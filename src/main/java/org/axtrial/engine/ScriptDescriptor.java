package org.axtrial.engine;

import java.nio.file.Path;
import org.junit.platform.engine.UniqueId;
import org.junit.platform.engine.support.descriptor.AbstractTestDescriptor;
import org.junit.platform.engine.support.descriptor.FileSource;
import org.junit.platform.engine.support.hierarchical.Node;

/** The trials of one script on one axis, in the order of the script. */
final class ScriptDescriptor extends AbstractTestDescriptor implements Node<RunContext> {

    static final String SEGMENT = "script";

    ScriptDescriptor(UniqueId parent, String script, Path folder) {
        super(
                parent.append(SEGMENT, script),
                script,
                FileSource.from(folder.resolve(script).toFile()));
    }

    @Override
    public Type getType() {
        return Type.CONTAINER;
    }

    @Override
    public ExecutionMode getExecutionMode() {
        return ExecutionMode.SAME_THREAD;
    }
}
