package job

import (
	"math"

	"underfall/geometry/part"
	"underfall/geometry/unit"
)

// fittingList is the list of the fittings in the run.
func fittingList() List {
	return listed(FittingsKey, mostFittings, func(j *Job) *[]Fitting { return &j.Waste.Fittings }, nextFitting,
		choose("kind", FittingKinds(), func(f *Fitting) *FittingKind { return &f.Kind }),
		along("atMM", 0, farthestMM, 10, func(f *Fitting) *float64 { return &f.AtMM }),
		length("lengthMM", 1, 2000, 5, func(f *Fitting) *float64 { return &f.LengthMM }),
		where((*Fitting).sized, length("nominalMM", 20, 200, 1, func(f *Fitting) *float64 { return &f.NominalMM })),
		where((*Fitting).sized, length("outsideDiameterMM", 20, 250, 0.1, func(f *Fitting) *float64 { return &f.OutsideDiameterMM })),
		where((*Fitting).sized, length("boreMM", 10, 240, 0.1, func(f *Fitting) *float64 { return &f.BoreMM })),
		where((*Fitting).falling, number("slope", unit.Slope, 0, 1, 0.001, func(f *Fitting) *float64 { return &f.Slope })),
		yes("reversed", func(f *Fitting) *bool { return &f.Reversed }))
}

// sized tells that pipe of another size goes on behind the fitting, falling that it has a fall of its own.
func (f *Fitting) sized() bool   { return f.Kind == FittingReducer || f.Kind == FittingAdaptor }
func (f *Fitting) falling() bool { return f.Kind == FittingFallingPiece }

// nextFitting comes a hand behind the last one, the first 300 mm along the run: a reducer to the next larger
// pipe, or a falling piece where there is none. Common practice, no source.
func nextFitting(j *Job) Fitting {
	const firstMM, handMM = 300, 100
	atMM := float64(firstMM)
	if n := len(j.Waste.Fittings); n > 0 {
		last := j.Waste.Fittings[n-1]
		atMM = math.Min(farthestMM, last.AtMM+last.LengthMM+handMM)
	}
	if f, ok := j.ReducerAt(atMM); ok {
		return f
	}
	return UsualFallingPiece(atMM)
}

// AsFitting is a fitting as one of another kind, of usual sizes where it had none of those that this needs.
func (j *Job) AsFitting(f Fitting, k FittingKind) Fitting {
	f.Kind = k
	switch {
	case f.falling():
		f.Pipe = part.Pipe{}
		if f.Slope == 0 {
			f.Slope = UsualFallingPiece(0).Slope
		}
	case f.sized():
		f.Slope = 0
		if f.OutsideDiameterMM == 0 {
			f.Pipe, _ = j.LargerPipe()
		}
	}
	return f
}

// VentKey is the key of the vent on the run.
const VentKey = "waste.vent"

// ventList is the list of the vent on the run, if there is one.
func ventList() List {
	return single(VentKey, func(j *Job) **Vent { return &j.Waste.Vent }, func(*Job) Vent { return UsualVent() },
		along("atMM", 0, farthestMM, 10, func(v *Vent) *float64 { return &v.AtMM }),
		length("nominalMM", 10, 200, 1, func(v *Vent) *float64 { return &v.NominalMM }))
}

// pumpList is the list of the pump, if there is one.
func pumpList() List {
	return single("waste.pump", func(j *Job) **Pump { return &j.Waste.Pump }, func(*Job) Pump { return UsualPump() },
		number("flowLPS", unit.Flow, 0.01, 20, 0.05, func(p *Pump) *float64 { return &p.FlowLPS }),
		maybe("dischargeMM", unit.Length, -20000, 20000, 10, func(p *Pump) **float64 { return &p.DischargeMM }),
		length("dischargeNominalMM", 0, 200, 1, func(p *Pump) *float64 { return &p.DischargeNominalMM }),
		length("inletMM", 0, 1000, 5, func(p *Pump) *float64 { return &p.InletMM }),
		yes("onStructure", func(p *Pump) *bool { return &p.OnStructure }),
		length("lengthMM", 50, 2000, 10, func(p *Pump) *float64 { return &p.LengthMM }),
		length("widthMM", 50, 2000, 10, func(p *Pump) *float64 { return &p.WidthMM }),
		length("heightMM", 50, 2000, 10, func(p *Pump) *float64 { return &p.HeightMM }))
}

// ExitWallKey is the wall that the waste leaves through.
const ExitWallKey = "waste.exit.wall"

// BeyondKey is the list of how the waste goes on outside.
const BeyondKey = "waste.beyond"

// JoinsKey is what it joins there.
const JoinsKey = BeyondKey + ".joins"

// beyondList is the list of how the waste goes on outside, where that is known.
func beyondList() List {
	return single(BeyondKey, func(j *Job) **Beyond { return &j.Waste.Beyond }, func(*Job) Beyond { return UsualBeyond() },
		along("lengthMM", 0, farthestMM, 10, func(b *Beyond) *float64 { return &b.LengthMM }),
		choose("joins", JoinKinds(), func(b *Beyond) *JoinKind { return &b.Joins }),
		where((*Beyond).gully, maybe("gratingMM", unit.Length, -20000, 5000, 10, func(b *Beyond) **float64 { return &b.GratingMM })),
		where((*Beyond).gully, maybe("downToMM", unit.Length, -20000, 5000, 10, func(b *Beyond) **float64 { return &b.DownToMM })),
		where((*Beyond).gully, maybe("waterMM", unit.Length, -20000, 5000, 10, func(b *Beyond) **float64 { return &b.WaterMM })))
}

// drillList is the list of what drills the hole, where that is known.
func drillList() List {
	return single("waste.drill", func(j *Job) **Drill { return &j.Waste.Drill }, func(*Job) Drill { return UsualDrill() },
		choose("from", DrillsFrom(), func(d *Drill) *DrillFrom { return &d.From }),
		length("leastAxisMM", 0, 1000, 5, func(d *Drill) *float64 { return &d.LeastAxisMM }))
}

// boxingList is the list of the boxing over a bare pipe, if there is one.
func boxingList() List {
	return single("waste.boxing", func(j *Job) **Boxing { return &j.Waste.Boxing }, func(*Job) Boxing { return UsualBoxing() },
		length("boardMM", 3, 100, 1, func(b *Boxing) *float64 { return &b.BoardMM }),
		length("gapMM", 1, 300, 1, func(b *Boxing) *float64 { return &b.GapMM }))
}
