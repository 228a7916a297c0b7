package chance

import (
	"underfall/geometry/asbuilt"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/stage"
	"underfall/geometry/tolerance"
)

// sampler works out what a job would come to if its inputs were off.
type sampler struct {
	// planned is the job as decided, with the height of its base fixed: a base
	// already cut does not grow when the floor turns out lower.
	planned stage.Levelled
	inputs  []tolerance.Input
	// usual are the values followed, none yet added to; for the chances alone.
	usual []watch
}

func newSampler(l stage.Levelled) sampler {
	s := sampler{planned: l, inputs: tolerance.Inputs(&l.Settled, &l.Layout, &l.Heights)}
	s.planned.Settled = l.Settled.Clone()
	asbuilt.FixBase(&s.planned.Settled, l.Heights, l.Heights.BaseTopMM)
	// It is not put together anew in each sample.
	s.planned.Settled.Base.BoardsMM = nil
	return s
}

// start is the job for at to change.
func (s *sampler) start() stage.Levelled {
	l := s.planned.Apart()
	l.Settled = job.Job{}
	return l
}

// at makes a started job the planned one with every input off by so much.
func (s *sampler) at(offMM []float64, l *stage.Levelled) {
	k := &l.Settled
	tolerance.Restore(k, &s.planned.Settled)
	l.Layout = s.planned.Layout
	for i := range s.inputs {
		if offMM[i] != 0 {
			s.inputs[i].Shift(k, &l.Layout, offMM[i])
		}
	}
	l.Relevel()
	if s.planned.Settled.AsBuilt.BaseTopMM != nil {
		// A measured base stays where it is, whatever the floor turns out to be.
		k.Base.HeightMM += s.planned.Heights.BaseTopMM + k.Base.HeightMM - s.planned.Settled.Base.HeightMM - l.Heights.BaseTopMM
		l.Relevel()
	}
}

// Spread says of every row of a levelled job's schedule how far it may be off: the
// effect of each input at its tolerance, added up at worst and statistically.
// Heights, falls and clearances depend on the inputs in straight lines but for
// the choice of the highest or worst place, so this is exact to first order.
func Spread(planned stage.Levelled, rows []buildup.Row) []buildup.Row {
	s := newSampler(planned)
	rows = append([]buildup.Row(nil), rows...)
	effects := make([][]float64, len(rows))
	room := make([]float64, len(rows)*len(s.inputs))
	for n := range effects {
		effects[n] = room[n*len(s.inputs) : n*len(s.inputs) : (n+1)*len(s.inputs)]
	}
	off := make([]float64, len(s.inputs))
	l := s.start()
	var floor buildup.Floor
	for i, in := range s.inputs {
		off[i] = in.ToleranceMM
		s.at(off, &l)
		off[i] = 0
		floor.Set(&l.Settled, &l.Layout, &l.Heights)
		for n := range rows {
			effects[n] = append(effects[n], floor.Value(rows[n])-rows[n].Value)
		}
	}
	for n := range rows {
		rows[n].Worst, rows[n].Statistical = buildup.Combine(effects[n])
	}
	return rows
}
