package job

// Pump lifts the waste where it cannot fall: a box on the floor, its inlet at the exit's
// place and level.
type Pump struct {
	FlowLPS float64 `json:"flowLPS"` // that it lifts as far as it must
	// DischargeMM is the level of the highest point of its discharge; nil when it is not
	// known.
	DischargeMM *float64 `json:"dischargeMM,omitempty"`
	// The box, on from its inlet.
	LengthMM float64 `json:"lengthMM"`
	WidthMM  float64 `json:"widthMM"`
	HeightMM float64 `json:"heightMM"`
}

// UsualPump is one for a single shower. Common practice, no source.
func UsualPump() Pump { return Pump{FlowLPS: 0.4, LengthMM: 350, WidthMM: 180, HeightMM: 280} }

// IntoPump is the pump that the waste leads into; nil when it leads elsewhere or the pump
// is not known.
func (w *Waste) IntoPump() *Pump {
	if w.Exit.Kind != ExitPump {
		return nil
	}
	return w.Pump
}
