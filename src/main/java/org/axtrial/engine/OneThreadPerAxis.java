package org.axtrial.engine;

import org.junit.platform.engine.support.hierarchical.ParallelExecutionConfiguration;

/** As many threads as axes, whatever the number of processors: the threads mostly wait for drives. */
record OneThreadPerAxis(int axes) implements ParallelExecutionConfiguration {

    @Override
    public int getParallelism() {
        return axes;
    }

    @Override
    public int getMinimumRunnable() {
        return 0;
    }

    @Override
    public int getMaxPoolSize() {
        return axes;
    }

    @Override
    public int getCorePoolSize() {
        return axes;
    }

    @Override
    public int getKeepAliveSeconds() {
        return 30;
    }
}
