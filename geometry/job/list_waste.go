package job

import "underfall/geometry/unit"

// ventList is the list of the vent on the run, if there is one.
func ventList() List {
	return single("waste.vent", func(j *Job) **Vent { return &j.Waste.Vent }, func(*Job) Vent { return UsualVent() },
		length("atMM", 0, farthestMM, 10, func(v *Vent) *float64 { return &v.AtMM }),
		length("nominalMM", 10, 200, 1, func(v *Vent) *float64 { return &v.NominalMM }))
}

// pumpList is the list of the pump, if there is one.
func pumpList() List {
	return single("waste.pump", func(j *Job) **Pump { return &j.Waste.Pump }, func(*Job) Pump { return UsualPump() },
		number("flowLPS", unit.Flow, 0.01, 20, 0.05, func(p *Pump) *float64 { return &p.FlowLPS }),
		maybe("dischargeMM", -20000, 20000, 10, func(p *Pump) **float64 { return &p.DischargeMM }),
		length("dischargeNominalMM", 0, 200, 1, func(p *Pump) *float64 { return &p.DischargeNominalMM }),
		length("inletMM", 0, 1000, 5, func(p *Pump) *float64 { return &p.InletMM }),
		yes("onStructure", func(p *Pump) *bool { return &p.OnStructure }),
		length("lengthMM", 50, 2000, 10, func(p *Pump) *float64 { return &p.LengthMM }),
		length("widthMM", 50, 2000, 10, func(p *Pump) *float64 { return &p.WidthMM }),
		length("heightMM", 50, 2000, 10, func(p *Pump) *float64 { return &p.HeightMM }))
}

// BeyondKey is the list of how the waste goes on outside.
const BeyondKey = "waste.beyond"

// beyondList is the list of how the waste goes on outside, where that is known.
func beyondList() List {
	return single(BeyondKey, func(j *Job) **Beyond { return &j.Waste.Beyond }, func(*Job) Beyond { return UsualBeyond() },
		length("lengthMM", 0, farthestMM, 10, func(b *Beyond) *float64 { return &b.LengthMM }),
		choose("joins", JoinKinds(), func(b *Beyond) *JoinKind { return &b.Joins }),
		where((*Beyond).gully, maybe("gratingMM", -20000, 5000, 10, func(b *Beyond) **float64 { return &b.GratingMM })),
		where((*Beyond).gully, maybe("downToMM", -20000, 5000, 10, func(b *Beyond) **float64 { return &b.DownToMM })),
		where((*Beyond).gully, maybe("waterMM", -20000, 5000, 10, func(b *Beyond) **float64 { return &b.WaterMM })))
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
