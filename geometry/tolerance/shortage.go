package tolerance

import (
	"math"
	"math/rand/v2"
	"slices"
	"sort"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/plan"
)

// SafeShare is the share of builds in which everything fits at a safe height.
const SafeShare = 0.95

// Shortage is by how much a base of a given height lies too low for what must fit, in
// builds that come out as they may: least first, negative where there is room to spare.
// Each counts for as many builds as any other; none at all is a base that nothing asks
// more of.
type Shortage []float64

// Fits is the share of builds in which everything fits once the base is so much higher.
func (s Shortage) Fits(higherMM float64) float64 {
	if len(s) == 0 {
		return 1
	}
	return float64(sort.SearchFloat64s(s, higherMM+plan.HairMM)) / float64(len(s))
}

// HigherMM is by how much the base must come up for everything to fit in a share of
// builds; negative by how much it may come down, endlessly so where nothing asks for it.
func (s Shortage) HigherMM(share float64) float64 {
	if len(s) == 0 {
		return math.Inf(-1)
	}
	return s[min(len(s)-1, max(0, int(math.Ceil(share*float64(len(s))))-1))]
}

// draws is how many builds an estimate draws: the share it tells of 95 in 100 is then
// off by 0.5 in 100 (a standard deviation of √(0.95·0.05/n)).
const draws = 2000

// farSigmas is how far under the worst a requirement must lie, in its own standard
// deviations and the worst's, to be left out: it is the worst in fewer than one build in
// a hundred thousand.
const farSigmas = 4.5

// Estimate is the shortage of a planned base, told from how each requirement moves with
// each input: straight lines through the plan. It is exact for what depends on its
// inputs so, and where the floor's highest reading changes it is not: sampling the job
// itself says more. The base keeps its height whatever the inputs come to.
//
// Method: central differences over each input's tolerance; where one requirement counts
// alone its normal distribution in closed form, else as many draws of independent normal
// inputs as there are, always the same ones (JCGM 101:2008).
//
// solve makes heights those of a job and a layout.
func Estimate(j *job.Job, l *layout.Layout, h *level.Heights, solve func(*job.Job, *layout.Layout, *level.Heights)) Shortage {
	planned := h.AppendShortMM(nil)
	inputs := Inputs(j, l, h)
	moves := movesOf(j, l, h, inputs, solve, len(planned))
	sigma := make([]float64, len(planned))
	worst := -1
	for k := range planned {
		for i := range inputs {
			sigma[k] = math.Hypot(sigma[k], moves[i][k])
		}
		if !math.IsInf(planned[k], -1) && (worst < 0 || planned[k] > planned[worst]) {
			worst = k
		}
	}
	if worst < 0 {
		return nil
	}
	var count []int
	for k := range planned {
		if planned[k]+farSigmas*sigma[k] >= planned[worst]-farSigmas*sigma[worst] {
			count = append(count, k)
		}
	}
	if len(count) == 1 {
		return normal(planned[worst], sigma[worst])
	}
	return drawn(planned, moves, count)
}

// normal is a shortage with a mean and a standard deviation, at evenly spread shares.
func normal(mean, sigma float64) Shortage {
	out := make(Shortage, draws)
	for i := range out {
		out[i] = mean + sigma*math.Sqrt2*math.Erfinv((2*float64(i)+1)/draws-1)
	}
	return out
}

// drawn is the worst of the requirements that count in each of many builds; every other
// build has all inputs off the other way, so that means come out exactly.
func drawn(planned []float64, moves [][]float64, count []int) Shortage {
	random := rand.New(rand.NewPCG(1, 2))
	var felt [][]float64 // the inputs that anything which counts feels
	for _, m := range moves {
		var by []float64
		for _, k := range count {
			by = append(by, m[k])
		}
		if slices.ContainsFunc(by, func(v float64) bool { return v != 0 }) {
			felt = append(felt, by)
		}
	}
	var out Shortage
	off := make([]float64, len(count))
	for range draws / 2 {
		clear(off)
		for _, by := range felt {
			z := random.NormFloat64()
			for c, m := range by {
				off[c] += m * z
			}
		}
		there, back := math.Inf(-1), math.Inf(-1)
		for c, k := range count {
			there, back = math.Max(there, planned[k]+off[c]), math.Max(back, planned[k]-off[c])
		}
		out = append(out, there, back)
	}
	slices.Sort(out)
	return out
}

// movesOf is by how much each requirement moves when an input is off by one standard
// deviation.
func movesOf(j *job.Job, l *layout.Layout, h *level.Heights, inputs []Input, solve func(*job.Job, *layout.Layout, *level.Heights), requirements int) [][]float64 {
	fixed := *j
	fixed.Base.Height, fixed.Base.BoardsMM = job.HeightChosen, nil
	fixed.Base.HeightMM = h.BaseTopMM - h.ChosenFromMM(j)
	measured := j.AsBuilt.BaseTopMM != nil
	var k job.Job
	var moved level.Heights
	var up, down []float64
	at := func(room []float64, in Input, by float64) []float64 {
		Restore(&k, &fixed)
		layout := *l
		in.Shift(&k, &layout, by)
		solve(&k, &layout, &moved)
		room = moved.AppendShortMM(room[:0])
		if measured {
			// It stays where it is, whatever the floor turns out to be.
			lifted := moved.BaseTopMM - h.BaseTopMM - (k.Base.HeightMM - fixed.Base.HeightMM)
			for i := range room {
				room[i] += lifted
			}
		}
		return room
	}
	out := make([][]float64, len(inputs))
	for i, in := range inputs {
		up, down = at(up, in, in.ToleranceMM), at(down, in, -in.ToleranceMM)
		out[i] = make([]float64, requirements)
		for c := range out[i] {
			if !math.IsInf(up[c], -1) && !math.IsInf(down[c], -1) {
				out[i][c] = (up[c] - down[c]) / (2 * SigmasInTolerance)
			}
		}
	}
	return out
}
