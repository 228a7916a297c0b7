package viewer

import (
	"image/color"
	"math"
)

// reliefLevels are what heights are coloured between.
type reliefLevels struct{ drainMM, spanMM float64 }

// Relief is between which levels of the finished floor the shower's heights are coloured, and how far its
// contours lie apart; every fifth of them is heavier.
func (s *Scene) Relief() (lowMM, highMM, contourMM float64) {
	return s.levels.drainMM, s.levels.drainMM + s.levels.spanMM, contourOf(s.levels.spanMM)
}

// contourOf is the spacing of contours that makes about ten of them.
func contourOf(spanMM float64) float64 {
	for _, every := range []float64{0.5, 1, 2, 5, 10} {
		if spanMM/every <= 14 {
			return every
		}
	}
	return 20
}

// heightColours are our own palette for heights in linear light, dark blue to pale sand: even steps of
// lightness, so that it reads without colour vision too.
func heightColours() [5][3]float32 {
	return [5][3]float32{{0.016, 0.051, 0.180}, {0.027, 0.180, 0.318}, {0.133, 0.376, 0.396}, {0.440, 0.560, 0.330}, {0.890, 0.800, 0.560}}
}

// HeightColour is the colour of a height on the screen, from 0 at the lowest to 1 at the highest.
func HeightColour(share float64) color.NRGBA {
	all := heightColours()
	at := math.Max(0, math.Min(1, share)) * float64(len(all)-1)
	k := min(int(at), len(all)-2)
	of := func(i int) uint8 {
		a, b := float64(all[k][i]), float64(all[k+1][i])
		return uint8(math.Round(255 * math.Pow(a+(b-a)*(at-float64(k)), 1/2.2)))
	}
	return color.NRGBA{of(0), of(1), of(2), 255}
}
