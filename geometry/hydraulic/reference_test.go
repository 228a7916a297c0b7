package hydraulic

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"testing"
)

// Against the open library fluids (Caleb Bell and contributors; the Debian
// package python3-fluids): the friction factor its Colebrook solver finds is
// the one our velocities come from, f = 2·g·D·S/v², within the 0.2 % that its
// constant of 3.7 makes against the 3.71 of EN 12056-2; Manning's velocity is
// the same. UNDERFALL_PYTHON names a Python that has the library.
func TestAgainstFluids(t *testing.T) {
	python := os.Getenv("UNDERFALL_PYTHON")
	if python == "" {
		t.Skip("UNDERFALL_PYTHON names no Python with the library fluids")
	}
	type question struct {
		HydraulicM float64 `json:"hydraulicM"`
		Velocity   float64 `json:"velocity"`
		Viscosity  float64 `json:"viscosity"`
		RoughnessM float64 `json:"roughnessM"`
		Slope      float64 `json:"slope"`
		N          float64 `json:"n"`
	}
	var questions []question
	var friction, manning []float64
	for _, bore := range []float64{32, 39, 46, 71, 96, 104, 146} {
		for _, fill := range []float64{0.1, 0.3, 0.5, 0.7, 1} {
			for _, slope := range []float64{0.005, 0.0125, 0.018, 0.025, 0.05, 0.09} {
				f := PartFull(bore, fill)
				_, v := ColebrookWhite(bore, fill, slope)
				_, m := Manning(bore, fill, slope, 0.010)
				questions = append(questions, question{f.HydraulicM, v, ViscosityM2PS, RoughnessMM / 1000, slope, 0.010})
				friction = append(friction, 2*gravity*4*f.HydraulicM*slope/(v*v))
				manning = append(manning, m)
			}
		}
	}
	asked, err := json.Marshal(questions)
	if err != nil {
		t.Fatal(err)
	}
	c := exec.Command(python, "testdata/pipeflow.py")
	c.Stdin, c.Stderr = bytes.NewReader(asked), os.Stderr
	told, err := c.Output()
	if err != nil {
		t.Fatalf("asking fluids: %v", err)
	}
	var answers []struct{ Friction, Manning float64 }
	if err := json.Unmarshal(told, &answers); err != nil || len(answers) != len(questions) {
		t.Fatalf("%d answers to %d questions: %v", len(answers), len(questions), err)
	}
	for i, a := range answers {
		if math.Abs(a.Friction-friction[i]) > 2e-3*a.Friction {
			t.Errorf("%+v: friction factor %.6f, fluids %.6f", questions[i], friction[i], a.Friction)
		}
		if math.Abs(a.Manning-manning[i]) > 1e-9*a.Manning {
			t.Errorf("%+v: Manning %.6f, fluids %.6f", questions[i], manning[i], a.Manning)
		}
	}
}
