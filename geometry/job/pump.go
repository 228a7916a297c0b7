package job

// Pump lifts the waste where it cannot fall: a box on the floor, its inlet at the exit's
// place and level.
type Pump struct {
	FlowLPS float64 `json:"flowLPS"` // that it lifts as far as it must
	// DischargeMM is the level of the highest point of its discharge; nil when it is not
	// known.
	DischargeMM *float64 `json:"dischargeMM,omitempty"`
	// DischargeNominalMM is the size of its discharge pipe; 0 when it is not known.
	DischargeNominalMM float64 `json:"dischargeNominalMM,omitempty"`
	// The box, on from its inlet.
	LengthMM float64 `json:"lengthMM"`
	WidthMM  float64 `json:"widthMM"`
	HeightMM float64 `json:"heightMM"`
	// InletMM is from its foot up to the invert of its inlet: lower than that nothing flows
	// in.
	InletMM float64 `json:"inletMM,omitempty"`
	// OnStructure is a foot on the structural floor, the room's floor left out round it;
	// else it stands on the finished floor.
	OnStructure bool `json:"onStructure,omitempty"`
}

// UsualPump is one for a single shower. Common practice, no source.
func UsualPump() Pump {
	return Pump{FlowLPS: 0.4, DischargeNominalMM: 32, LengthMM: 350, WidthMM: 180, HeightMM: 280, InletMM: 30}
}

// FootMM is the level of its foot, where the floor has these levels.
func (p *Pump) FootMM(finishedMM, structureMM float64) float64 {
	if p.OnStructure {
		return structureMM
	}
	return finishedMM
}

// IntoPump is the pump that the waste leads into; nil when it leads elsewhere or the pump
// is not known.
func (w *Waste) IntoPump() *Pump {
	if w.Exit.Kind != ExitPump {
		return nil
	}
	return w.Pump
}
