// Package chance says how far levels may be off and how likely rules are broken,
// given the tolerances of a job's inputs.
package chance

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"sort"

	"gonum.org/v1/gonum/stat"
	"underfall/geometry/level"
	"underfall/geometry/measure"
	"underfall/geometry/message"
	"underfall/geometry/parallel"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
	"underfall/geometry/tolerance"
)

// Risk is the chance that a rule is broken once the job is built, given the
// tolerances.
type Risk struct {
	Rule rule.Rule
	// Measurement is what the rule is about, as planned.
	Measurement rule.Measurement
	Probability float64
	// Planned tells that the rule is broken as planned already.
	Planned bool
	// Main is the input whose spread moves the measured value most, and
	// MainShare its share of the value's variance, 0 to 1.
	Main      message.Numbered
	MainShare float64
}

// Chances are what may go wrong once a job is built.
type Chances struct {
	Risks []Risk
	// MarginMM is how much higher the base would have to be set for trap and
	// pipe to fit in 95 of 100 cases; nothing or less when it is high enough.
	MarginMM float64
	// Fits is the share of cases in which they fit as it is.
	Fits float64
	// Rough tells that they are of so few cases that they say how a job stands, but not in how
	// many of a hundred builds.
	Rough bool
}

// Key names the risk as the finding of the same rule and place.
func (r Risk) Key() string { return rule.Finding{Rule: r.Rule, Measurement: r.Measurement}.Key() }

// Certain tells whether hardly any build will be otherwise.
func (r Risk) Certain() bool { return r.Probability >= 1-leastRisk }

// Chance says how likely it is: “18 in 100”.
func (r Risk) Chance() message.Message {
	switch p := r.Probability; {
	case r.Certain():
		return message.Of("chance.certain")
	case p < leastRisk:
		return message.Of("chance.least")
	default:
		return message.Of("chance.in-100", message.No("n", int(math.Max(1, math.Round(100*p)))))
	}
}

// StopsTooOften tells whether the rule stops a job and is broken in more builds than a
// safe height allows.
func (r Risk) StopsTooOften() bool {
	return r.Rule.Severity == rule.Stop && r.Probability > 1-tolerance.SafeShare
}

// leastShare is the share of a value's uncertainty under which what has it is not
// worth naming: measuring it better would change little.
const leastShare = 0.2

// From says which input most of the uncertainty comes from; nothing where none has a
// share worth naming.
func (r Risk) From() message.Message {
	if r.Main.ID == "" || r.MainShare < leastShare {
		return message.Message{}
	}
	share := message.Arg{Name: "share", Value: message.Share(math.Round(100*r.MainShare) / 100)}
	return message.Of("chance.main", message.In("input", r.Main.Message()), share)
}

// Lines say how likely it is once built, and which input most of that comes from, where one does.
func (r Risk) Lines() []message.Message {
	out := []message.Message{message.Of("chance.once-built", message.In("chance", r.Chance()))}
	if from := r.From(); !from.IsZero() {
		out = append(out, from)
	}
	return out
}

// watchKey is what a value is measured of, whichever sample it is of.
type watchKey struct {
	quantity string
	subject  rule.Subject
}

// keyOf is what a measurement is of. A bound that is said to be on a high spot in one
// sample and on the floor in another is one.
func keyOf(m *rule.Measurement) watchKey {
	k := watchKey{m.Quantity, m.Subject}
	switch k.subject.Which {
	case level.TrapOnHighSpot.ID():
		k.subject.Which = level.TrapOnFloor.ID()
	case level.PieceOnHighSpot.ID():
		k.subject.Which = level.PieceOnFloor.ID()
	}
	return k
}

// watch follows one measured value through the samples.
type watch struct {
	measurement rule.Measurement
	rules       []rule.Rule
	broken      []int
	n           float64
	sum, square float64
	with        []float64 // sum of value times each input's offset
}

func (w *watch) add(v float64, off []float64) {
	for i := range w.rules {
		if w.rules[i].BrokenBy(v) {
			w.broken[i]++
		}
	}
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return
	}
	v -= w.measurement.Value // small numbers keep their digits
	w.n++
	w.sum += v
	w.square += v * v
	for i, o := range off {
		w.with[i] += v * o
	}
}

func (w *watch) join(o *watch) {
	for i := range w.broken {
		w.broken[i] += o.broken[i]
	}
	w.n, w.sum, w.square = w.n+o.n, w.sum+o.sum, w.square+o.square
	for i := range w.with {
		w.with[i] += o.with[i]
	}
}

// main is the input with the largest share of the value's variance: the square
// of their correlation, which for a value that depends on its inputs in
// straight lines is the share exactly.
func (w *watch) main(inputs []tolerance.Input) (name message.Numbered, share float64) {
	if w.n < 2 {
		return message.Numbered{}, 0
	}
	variance := w.square/w.n - w.sum/w.n*w.sum/w.n
	const noVariance = 1e-18 // of a value that rounding alone moves, in its unit squared
	if variance < noVariance {
		return message.Numbered{}, 0
	}
	for i, in := range inputs {
		sigma := in.ToleranceMM / tolerance.SigmasInTolerance
		covariance := w.with[i] / w.n // offsets have mean zero
		if s := covariance * covariance / (variance * sigma * sigma); s > share {
			name, share = in.Name, min(1, s)
		}
	}
	return name, share
}

// chunks is into how many parts the samples are divided, each with random
// numbers of its own, so that the outcome does not depend on the processors.
const chunks = 64

// Seed is the seed by which the same job always shows the same chances.
const Seed = 1

// firstSamples are as few as tell how a job stands: a share of 95 in 100 is known from them to
// √(0.95·0.05/500), 1 in 100.
const firstSamples = 500

// firstChunks is how many parts few samples are divided into: each costs what many samples do.
const firstChunks = 4

// First is Count from few samples: it is there before one looks.
func First(ctx context.Context, l stage.Levelled, findings []rule.Finding, seed uint64) (Chances, error) {
	c, err := count(ctx, l, findings, firstSamples, firstChunks, seed)
	c.Rough = true
	return c, err
}

// Count draws samples of the job as it may come out and counts how often each
// rule is broken, gravest and likeliest first; only risks above one in two
// hundred, and what is broken as planned. The same seed gives the same answer.
//
// Method: Monte Carlo with independent normal inputs (JCGM 101:2008); the
// measurements are those of the evaluation, so clipped and stepped values
// count as they are. The error is a job that cannot be worked out, a fault of
// the program, or a cancelled context.
func Count(ctx context.Context, l stage.Levelled, findings []rule.Finding, samples int, seed uint64) (Chances, error) {
	return count(ctx, l, findings, samples, chunks, seed)
}

// count is Count with the samples in so many parts.
func count(ctx context.Context, l stage.Levelled, findings []rule.Finding, samples, chunks int, seed uint64) (Chances, error) {
	var c Chances
	if len(l.Heights.Constraints) == 0 {
		return c, errors.New("counting the chances: the job could not be worked out")
	}
	if samples < 1 {
		return c, errors.New("counting the chances: at least one sample is needed")
	}
	s := newSampler(l)
	s.usual = s.begin()
	parts := make([]drawn, chunks)
	err := parallel.Each(ctx, chunks, func(c int) error {
		parts[c] = s.draw(ctx, samples*(c+1)/chunks-samples*c/chunks, rand.New(rand.NewPCG(seed, uint64(c))))
		return nil
	})
	if err == nil {
		err = ctx.Err()
	}
	if err != nil {
		return c, fmt.Errorf("counting the chances: %w", err)
	}
	all := map[watchKey]*watch{}
	var short []float64
	for _, p := range parts {
		short = append(short, p.short...)
		for key, w := range p.watched {
			if have, ok := all[key]; ok {
				have.join(w)
			} else {
				all[key] = w
			}
		}
	}
	planned := map[string]bool{}
	for _, f := range findings {
		planned[f.Key()] = true
	}
	sort.Float64s(short)
	c.MarginMM = stat.Quantile(tolerance.SafeShare, stat.Empirical, short, nil)
	c.Fits = tolerance.Shortage(short).Fits(0)
	c.Risks = listRisks(all, s.inputs, planned, samples)
	return c, nil
}

// drawn is what a chunk of samples came to: the values watched, and how much
// each sample's base fell short of what it needed.
type drawn struct {
	watched map[watchKey]*watch
	short   []float64
}

// watch begins to follow a value.
func (s *sampler) watch(m rule.Measurement) watch {
	w := watch{measurement: m, with: make([]float64, len(s.inputs))}
	for _, r := range s.planned.Pack.About(m.Quantity) {
		if r.Compare != rule.Present && r.Applies(m) {
			w.rules = append(w.rules, r)
		}
	}
	w.broken = make([]int, len(w.rules))
	return w
}

// begin is what every chunk starts from: the values as planned, in the order in which
// they are measured, for the samples' to be held against.
func (s *sampler) begin() []watch {
	var m measure.Measurer
	m.Begin(s.start())
	m.Change(func(l *stage.Levelled) { s.at(make([]float64, len(s.inputs)), l) })
	var out []watch
	followed := map[watchKey]bool{}
	for _, x := range m.Levels() {
		if key := keyOf(&x); !followed[key] {
			followed[key] = true
			out = append(out, s.watch(x))
		}
	}
	return out
}

// draw takes samples and follows every value a rule speaks of.
func (s *sampler) draw(ctx context.Context, samples int, random *rand.Rand) drawn {
	usual := make([]watch, len(s.usual))
	watched := make(map[watchKey]*watch, len(usual))
	for i := range usual {
		w := &usual[i]
		*w = s.usual[i]
		w.broken, w.with = make([]int, len(w.rules)), make([]float64, len(s.inputs))
		watched[keyOf(&w.measurement)] = w
	}
	short := make([]float64, 0, samples)
	off := make([]float64, len(s.inputs))
	var m measure.Measurer
	m.Begin(s.start())
	m.WithPlaces(false)
	for range samples {
		if ctx.Err() != nil {
			return drawn{}
		}
		for i, in := range s.inputs {
			off[i] = random.NormFloat64() * in.ToleranceMM / tolerance.SigmasInTolerance
		}
		m.Change(func(l *stage.Levelled) { s.at(off, l) })
		// Most samples measure the same things in the same order.
		taken, next := m.Levels(), 0
		for i := range taken {
			x := &taken[i]
			var w *watch
			for k := next; k < min(next+4, len(usual)) && w == nil; k++ {
				if u := &usual[k].measurement; u.Quantity == x.Quantity && u.Subject == x.Subject {
					w, next = &usual[k], k+1
				}
			}
			if w == nil {
				w = watched[keyOf(x)]
			}
			if w == nil {
				// Not measured as planned: its place is asked for.
				m.WithPlaces(true)
				taken = m.Levels()
				m.WithPlaces(false)
				x = &taken[i]
				begun := s.watch(*x)
				w = &begun
				watched[keyOf(x)] = w
			}
			if len(w.rules) > 0 {
				w.add(x.Value, off)
			}
		}
		short = append(short, m.Heights.ShortMM())
	}
	return drawn{watched, short}
}

// leastRisk is the probability below which a risk is not worth a line.
const leastRisk = 0.005

func listRisks(all map[watchKey]*watch, inputs []tolerance.Input, planned map[string]bool, samples int) []Risk {
	var out []Risk
	for _, w := range all {
		for i, r := range w.rules {
			risk := Risk{Rule: r, Measurement: w.measurement, Probability: float64(w.broken[i]) / float64(max(1, samples))}
			risk.Planned = planned[risk.Key()]
			if risk.Probability < leastRisk && !risk.Planned {
				continue
			}
			risk.Main, risk.MainShare = w.main(inputs)
			out = append(out, risk)
		}
	}
	sort.Slice(out, func(a, b int) bool {
		x, y := out[a], out[b]
		if x.Rule.Severity != y.Rule.Severity {
			return x.Rule.Severity.Rank() < y.Rule.Severity.Rank()
		}
		if x.Probability != y.Probability {
			return x.Probability > y.Probability
		}
		return x.Key() < y.Key()
	})
	return out
}
