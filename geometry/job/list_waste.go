package job

// wasteLists are the lists of what is on the waste run.
func wasteLists() []List {
	return []List{
		single("waste.vent", GroupWaste, func(j *Job) **Vent { return &j.Waste.Vent }, func(*Job) Vent { return UsualVent() },
			length("atMM", 0, farthestMM, 10, func(v *Vent) *float64 { return &v.AtMM }),
			length("nominalMM", 10, 200, 1, func(v *Vent) *float64 { return &v.NominalMM })),
	}
}
