package org.axtrial.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.awt.color.ColorSpace;
import java.awt.color.ICC_ColorSpace;
import java.awt.color.ICC_Profile;
import java.awt.color.ICC_ProfileRGB;
import java.nio.ByteBuffer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The colour profile, read by the colour engine of the Java library. */
class SrgbProfileTest {

    private static final ICC_Profile PROFILE = ICC_Profile.getInstance(SrgbProfile.bytes());

    @Test
    void isADisplayProfileOfThreeComponents() {
        assertThat(PROFILE).isInstanceOf(ICC_ProfileRGB.class);
        assertThat(PROFILE.getProfileClass()).isEqualTo(ICC_Profile.CLASS_DISPLAY);
        assertThat(PROFILE.getColorSpaceType()).isEqualTo(ColorSpace.TYPE_RGB);
        assertThat(PROFILE.getPCSType()).isEqualTo(ColorSpace.TYPE_XYZ);
        assertThat(PROFILE.getMajorVersion()).isEqualTo(2);
    }

    @Test
    void isAsLongAsItSaysAndTheSameEachTime() {
        byte[] bytes = SrgbProfile.bytes();
        assertThat(ByteBuffer.wrap(bytes).getInt()).isEqualTo(bytes.length);
        assertThat(SrgbProfile.bytes()).isEqualTo(bytes);
    }

    @Test
    void thePrimariesAddUpToWhite() {
        // ICC.1:2001-04: the media white of a display profile is D50, X 0.9642, Y 1, Z 0.8249.
        float[][] matrix = ((ICC_ProfileRGB) PROFILE).getMatrix();
        double[] white = {0.9642, 1, 0.8249};
        for (int row = 0; row < 3; row++) {
            assertThat((double) matrix[row][0] + matrix[row][1] + matrix[row][2])
                    .isCloseTo(white[row], within(2e-3));
        }
    }

    // The library brings an sRGB of its own, from other makers: both must mean the same colours.
    @ParameterizedTest
    @CsvSource({
        "0, 0, 0",
        "1, 1, 1",
        "1, 0, 0",
        "0, 1, 0",
        "0, 0, 1",
        "0.5, 0.5, 0.5",
        "0.08, 0.38, 0.42",
        "0.02, 0.9, 0.3"
    })
    void meansTheSameColoursAsTheProfileOfTheLibrary(float red, float green, float blue) {
        float[] colour = {red, green, blue};
        float[] ours = new ICC_ColorSpace(PROFILE).toCIEXYZ(colour);
        float[] theirs = ColorSpace.getInstance(ColorSpace.CS_sRGB).toCIEXYZ(colour);
        for (int i = 0; i < 3; i++) {
            assertThat((double) ours[i]).isCloseTo(theirs[i], within(3e-3));
        }
    }
}
