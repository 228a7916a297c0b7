package survey_test

import (
	"math"
	"testing"

	"underfall/geometry/plan"
	"underfall/geometry/survey"
)

// far is a distance between corners.
func far(from, to int, mm, tolerance float64) survey.Measure {
	return survey.Measure{Kind: survey.Distance, From: from, To: to, Value: mm, Tolerance: tolerance}
}

// at is an angle inside at a corner, from the way to the next corner to the way to the one before.
func at(corner, from, to int, deg, tolerance float64) survey.Measure {
	return survey.Measure{Kind: survey.Angle, At: corner, From: from, To: to, Value: deg, Tolerance: tolerance}
}

func worked(t *testing.T, drawn []plan.Point, measures []survey.Measure) survey.Fit {
	t.Helper()
	f, err := survey.Work(drawn, measures)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %v, want %v", what, got, want)
	}
}

// onto are points moved and turned so that the first lies where another does and the second on the line from
// it through a further one.
func onto(points []plan.Point, first, second plan.Point) []plan.Point {
	u, v := points[1].Sub(points[0]).Normalize(), second.Sub(first).Normalize()
	cos, sin := u.Dot(v), plan.Cross(u, v)
	out := make([]plan.Point, len(points))
	for i, p := range points {
		d := p.Sub(points[0])
		out[i] = first.Add(plan.Point{d.X()*cos - d.Y()*sin, d.X()*sin + d.Y()*cos})
	}
	return out
}

// A trilateration with one distance too many: W. Benning, Statistik in Geodäsie, Geoinformation und Bauwesen
// (2011), example 8-2, with the adjusted places as F. Krumm gives them, Geodetic Network Adjustment Examples,
// Rev. 3.5 (2020), 3.1.1; metres. The two fixed points are a wall that is known a thousand times better.
func TestBenningTrilateration(t *testing.T) {
	const sigma = 0.01
	drawn := []plan.Point{{0, 1000}, {1000, 1000}, {1000, 0}, {0, 0}} // its points 1, 2, 4, 3
	f := worked(t, drawn, []survey.Measure{
		far(0, 1, 1000, 2*sigma/1000),
		far(0, 3, 1000.02, 2*sigma), far(0, 2, 1414.20, 2*sigma), far(1, 3, 1414.24, 2*sigma), far(1, 2, 999.98, 2*sigma), far(2, 3, 1000, 2*sigma),
	})
	for i, want := range []plan.Point{{0, 1000}, {1000, 1000}, {999.9930, 0.0174}, {-0.0096, -0.0226}} {
		near(t, "x", f.Corners[i].X(), want.X(), 1e-4)
		near(t, "y", f.Corners[i].Y(), want.Y(), 1e-4)
	}
	// Residuals are adjusted less measured.
	for i, want := range []float64{0, 0.0026, -0.00368, -0.00368, 0.0026, 0.0026} {
		near(t, "residual", f.Residuals[i].Value, want, 1e-5)
	}
	if f.Assumed.Any() || !f.Closes || f.Blunder != nil {
		t.Errorf("assumed %v, closes %v, blunder %v", f.Assumed, f.Closes, f.Blunder)
	}
}

// A free trilateration of four points by six distances: G. Strang and K. Borre, Linear Algebra, Geodesy, and GPS
// (1997), example 12.4, with the adjusted places as F. Krumm gives them, Rev. 3.5 (2020); metres. P lies inside
// the triangle, so that the corners 1, 2, P, 3 are a room with a corner that comes in.
func TestStrangBorreFreeNetwork(t *testing.T) {
	const sigma = 0.01
	want := []plan.Point{{170.7032, 270.7213}, {99.9912, 99.9971}, {170.7123, 170.7185}, {241.4333, 99.9830}} // 1, 2, P, 3
	drawn := []plan.Point{{170.71, 270.71}, {100, 100}, {170.71, 170.71}, {241.42, 100}}
	f := worked(t, drawn, []survey.Measure{
		far(0, 2, 100.01, 2*sigma), far(1, 2, 100.02, 2*sigma), far(3, 2, 100.03, 2*sigma),
		far(0, 1, 184.785, 2*sigma), far(1, 3, 141.44, 2*sigma), far(0, 3, 184.805, 2*sigma),
	})
	for i, p := range onto(f.Corners, want[0], want[1]) {
		near(t, "place", p.Sub(want[i]).Len(), 0, 2e-4)
	}
}

// A survey of eight points by 27 distances: W. Höpke, Fehlerlehre und Ausgleichungsrechnung (1980), example 35.5, as
// F. Krumm has it, Rev. 3.5 (2020); metres. Its list of observations has 1789.499 from 1059 to 75, and the
// adjustment 1789.449: with that one 5 cm long, it is to be found among the 27. The distances are as good as
// their residuals tell, 5 mm.
func TestHoepkeBlunder(t *testing.T) {
	points := map[int]int{75: 0, 1059: 1, 20: 2, 1006: 3, 87: 4, 1087: 5, 86: 6, 1011: 7}
	drawn := []plan.Point{{3575403.277, 5707682.612}, {3576852.894, 5706633.642}, {3579041.416, 5707194.412}, {3578284.289, 5708758.641},
		{3576581.778, 5709938.106}, {3576213.699, 5709199.889}, {3575322.061, 5708700.952}, {3577052.332, 5708103.204}}
	list := []struct {
		from, to int
		m        float64
	}{
		{86, 1006, 2962.832}, {86, 87, 1765.657}, {86, 1087, 1021.768}, {86, 75, 1021.536}, {86, 1011, 1830.646}, {86, 20, 4012.921},
		{86, 1059, 2572.516}, {1087, 87, 824.863}, {1087, 20, 3466.722}, {1087, 1059, 2644.789}, {1087, 75, 1720.130}, {1087, 1006, 2117.134},
		{1087, 1011, 1380.633}, {1006, 75, 3075.373}, {1006, 20, 1737.824}, {1006, 1059, 2562.134}, {1006, 1011, 1395.459}, {1006, 87, 2071.154},
		{1011, 87, 1894.263}, {1011, 75, 1701.824}, {1011, 1059, 1483.088}, {1011, 20, 2186.853}, {1059, 20, 2259.167}, {1059, 75, 1789.449},
		{1059, 87, 3315.630}, {20, 87, 3684.782}, {20, 75, 3670.735},
	}
	want := map[int]plan.Point{20: {3579041.4042, 5707194.4039}, 75: {3575403.2853, 5707682.6565}, 86: {3575322.0203, 5708700.9554},
		87: {3576581.7857, 5709938.0995}, 1006: {3578284.2920, 5708758.6275}, 1011: {3577052.3287, 5708103.2070},
		1059: {3576852.9606, 5706633.5764}, 1087: {3576213.6691, 5709199.9319}}
	var measures []survey.Measure
	for _, l := range list {
		measures = append(measures, far(points[l.from], points[l.to], l.m, 2*0.005))
	}
	f := worked(t, drawn, measures)
	for n, p := range want {
		moved := onto(f.Corners, want[75], want[1059])
		near(t, "place", moved[points[n]].Sub(p).Len(), 0, 3e-4)
	}
	if !f.Closes || f.Blunder != nil {
		t.Errorf("without the blunder: closes %v, blunder %v", f.Closes, f.Blunder)
	}
	const it = 23
	measures[it].Value = 1789.499
	f = worked(t, drawn, measures)
	if f.Closes || f.Blunder == nil || f.Blunder.Measure != it {
		t.Fatalf("closes %v, blunder %v", f.Closes, f.Blunder)
	}
	near(t, "blunder", f.Blunder.By, 0.05, 0.0005)
}

// The traverse and its net of C. D. Ghilani and P. R. Wolf, Elementary Surveying, 13th edition (2012), 16.9.5, with
// the adjusted places as F. Krumm gives them, Rev. 3.5 (2020), 3.6.8: 14 angles and 12 distances; metres and
// seconds. A is fixed and the bearing of AB, so AB is the first wall here.
func TestGhilaniWolfTraverse(t *testing.T) {
	points := map[byte]int{'A': 0, 'B': 1, 'C': 2, 'D': 3, 'E': 4, 'F': 5, 'G': 6, 'H': 7, 'J': 8, 'K': 9}
	drawn := []plan.Point{{415.273, 929.868}, {507.934, 764.652}, {618.952, 815.353}, {723.852, 753.287}, {826.128, 856.438},
		{794.659, 1021.655}, {578.741, 1103.826}, {652.221, 980.245}, {600.595, 899.272}, {713.362, 877.418}}
	var measures []survey.Measure
	for _, a := range []struct {
		corners       string // at, from, to, clockwise
		deg, min, sec float64
		sigma         float64
	}{
		{"AGB", 107, 29, 40, 8.9}, {"BAC", 94, 44, 24, 11.7}, {"CBD", 235, 9, 26, 13.7}, {"DCE", 104, 8, 40, 12.7}, {"EDF", 124, 27, 36, 11.2},
		{"FEG", 121, 37, 8, 9.5}, {"GFA", 112, 23, 0, 8.3}, {"GFH", 38, 25, 46, 9.9}, {"HGJ", 243, 15, 20, 14.6}, {"JHC", 135, 8, 30, 18},
		{"HJG", 116, 44, 44, 14.6}, {"HJK", 296, 44, 38, 15}, {"KHE", 131, 16, 30, 14.3}, {"EKF", 68, 40, 36, 12.3},
	} {
		// Their angles turn clockwise, these the way that the corners run.
		deg := a.deg + a.min/60 + a.sec/3600
		measures = append(measures, at(points[a.corners[0]], points[a.corners[2]], points[a.corners[1]], deg, 2*a.sigma/3600))
	}
	for _, d := range []struct {
		ends string
		m    float64
	}{
		{"AB", 189.436}, {"BC", 122.050}, {"CD", 121.901}, {"DE", 145.256}, {"EF", 168.180}, {"FG", 231.021}, {"GA", 238.714}, {"GH", 143.780},
		{"HK", 119.631}, {"KE", 114.695}, {"HJ", 96.036}, {"JC", 85.908},
	} {
		measures = append(measures, far(points[d.ends[0]], points[d.ends[1]], d.m, 2*0.007))
	}
	f := worked(t, drawn, measures)
	// The bearing of AB is 150° 42' 51", clockwise from north.
	sin, cos := math.Sincos((150 + 42.0/60 + 51.0/3600) * math.Pi / 180)
	moved := onto(f.Corners, drawn[0], drawn[0].Add(plan.Point{sin, cos}))
	for name, want := range map[byte]plan.Point{'B': {507.9380, 764.6451}, 'C': {618.9547, 815.3499}, 'D': {723.8666, 753.2855}, 'E': {826.1331, 856.4409},
		'F': {794.6611, 1021.6540}, 'G': {578.7455, 1103.8272}, 'H': {652.2263, 980.2450}, 'J': {600.5991, 899.2696}, 'K': {713.3703, 877.4179}} {
		near(t, string(name), moved[points[name]].Sub(want).Len(), 0, 2e-4)
	}
	if !f.Closes || f.Blunder != nil {
		t.Errorf("closes %v, blunder %v", f.Closes, f.Blunder)
	}
}

// A traverse balanced by the compass rule: the worked example of Purdue University's notes on traverse
// calculations, engineering.purdue.edu/~asm215/topics/travcalc.html; latitudes and departures in feet, and the
// coordinates they come to.
func TestCompassRule(t *testing.T) {
	legs := []plan.Point{{125.72, 255.88}, {590.78, -153.70}, {-192.54, -694.28}, {-6.02, 202.91}, {-517.41, 388.48}}
	for i, p := range survey.Closed(legs) {
		want := []plan.Point{{0, 0}, {125.66, 255.96}, {716.31, 102.44}, {523.62, -591.63}, {517.55, -388.66}}[i]
		near(t, "departure", p.X(), want.X(), 0.011)
		near(t, "latitude", p.Y(), want.Y(), 0.011)
	}
}
