package org.axtrial.engine;

import org.junit.platform.suite.api.ConfigurationParameter;
import org.junit.platform.suite.api.IncludeEngines;
import org.junit.platform.suite.api.SelectDirectories;
import org.junit.platform.suite.api.Suite;

/**
 * The demonstration's trials as tests of this build, as a user would run trials under Surefire: a suite class that names
 * the engine, the scripts and the site file. Each trial on each axis is one test.
 */
@Suite
@IncludeEngines(AxtrialEngine.ID)
@SelectDirectories("test-scripts/demo")
@ConfigurationParameter(key = SessionFromSite.SITE, value = "test-scripts/demo/site.yaml")
@ConfigurationParameter(key = SessionFromSite.HOW, value = "rehearsal")
class DemoAcceptanceTest {}
