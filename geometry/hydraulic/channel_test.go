package hydraulic

import (
	"math"
	"testing"
)

// Depths worked out from the published equation: critical, at the closed end and at quarters
// of the length.
func TestCollectorByTheEquation(t *testing.T) {
	for _, c := range []struct{ flow, width, critical, far float64 }{
		{0.2, 50, 11.77, 20.39}, {0.4, 50, 18.69, 32.36}, {0.2, 30, 16.55, 28.66}, {0.1, 50, 7.42, 12.84},
	} {
		if got := CriticalMM(c.flow, c.width); math.Abs(got-c.critical) > 0.005 {
			t.Errorf("%v l/s in %v: critical %v, want %v", c.flow, c.width, got, c.critical)
		}
		if got := CollectorMM(c.flow, c.width, 0); math.Abs(got-c.far) > 0.02 {
			t.Errorf("%v l/s in %v: %v deep at the closed end, want %v", c.flow, c.width, got, c.far)
		}
	}
	for share, want := range map[float64]float64{0.25: 1.7108, 0.5: 1.6418, 0.75: 1.5, 1: 1} {
		if got := CollectorMM(0.2, 50, share) / CriticalMM(0.2, 50); math.Abs(got-want) > 1e-4 {
			t.Errorf("at %v of the length %v of the critical depth, want %v", share, got, want)
		}
	}
}

// The balance of momentum carried on step by step from the open end upstream, by
// Runge and Kutta's rule, comes to the same depths. With flow growing as Q·x/L in a level
// channel of width B, momentum g·B·y²/2 + q²/(B·y) keeps: dy/dx = −2·q·q'/(g·B²·y²)·1/(1 − F²),
// F² = q²/(g·B²·y³).
func TestCollectorAgainstIntegration(t *testing.T) {
	for _, c := range []struct{ flow, width float64 }{{0.2, 0.05}, {0.45, 0.07}, {0.05, 0.03}} {
		const length = 1.0
		perM := c.flow / 1000 / length
		slope := func(x, y float64) float64 {
			q := perM * x
			return -2 * q * perM / (9.81 * c.width * c.width * y * y) / (1 - q*q/(9.81*c.width*c.width*y*y*y))
		}
		// At the very end the slope has no bound: begin where the equation leaves it.
		x := 0.95
		y := CollectorMM(c.flow, c.width*1000, x) / 1000
		const steps = 20000
		h := (x - 0.05) / steps
		for range steps {
			k1 := slope(x, y)
			k2 := slope(x-h/2, y-h/2*k1)
			k3 := slope(x-h/2, y-h/2*k2)
			k4 := slope(x-h, y-h*k3)
			y -= h * (k1 + 2*k2 + 2*k3 + k4) / 6
			x -= h
		}
		if want := CollectorMM(c.flow, c.width*1000, x) / 1000; math.Abs(y-want) > 1e-6*want {
			t.Errorf("%+v: integrated %v, the equation gives %v", c, y, want)
		}
	}
}
