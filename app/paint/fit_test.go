package paint_test

import (
	"testing"

	"underfall/app/paint"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/section"
)

// In the place that the section has in the least window what is built in the shower is drawn so large that it can be read, if need be
// without all rows of its dimensions: it is over a quarter of the picture's width. Common practice, no source.
func TestAShowerIsReadInTheLeastWindow(t *testing.T) {
	const width, height, least = 404, 174, 0.25 // pixels
	for _, r := range demotest.Shown(t) {
		d, err := section.Through(r, section.Cutting{Of: section.CutDrain}, buildup.StageTile)
		if err != nil {
			t.Fatal(err)
		}
		long := min(r.Settled.Shower.WidthMM, r.Settled.Shower.DepthMM)
		if share := paint.FitTo(&d, width, height, 1).PixelsPerMM * long / width; share < least {
			t.Errorf("%s: the shower is %.0f %% of the picture wide", r.Settled.Name, 100*share)
		}
	}
}
