package job_test

import (
	"encoding/json"
	"fmt"
	"reflect"
	"strings"

	"github.com/google/jsonschema-go/jsonschema"
	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/source"
)

// words makes the schema of a type whose values are a few words.
func words[T ~string](e job.Enum[T]) (reflect.Type, *jsonschema.Schema) {
	_, s := oneOf(e.Values())
	return reflect.TypeFor[T](), s
}

// oneOf makes the schema of a type that has these values.
func oneOf[T ~string](values []T) (reflect.Type, *jsonschema.Schema) {
	var enum []any
	for _, v := range values {
		enum = append(enum, string(v))
	}
	return reflect.TypeFor[T](), &jsonschema.Schema{Type: "string", Enum: enum}
}

// withRanges gives the numbers that always count the ranges they have. Others may be
// anything while the job does not use them, which a schema cannot tell.
func withRanges(s *jsonschema.Schema) error {
	for p := range job.EachParameter {
		if !p.Always() {
			continue
		}
		at := s
		for _, name := range strings.Split(p.Key, ".") {
			if at = at.Properties[name]; at == nil {
				return fmt.Errorf("the schema has no %s", p.Key)
			}
		}
		at.Minimum, at.Maximum = &p.Least, &p.Greatest
	}
	return nil
}

// exitLevel is the schema of an exit's level: free without a level, or another
// kind with one.
func exitLevel() *jsonschema.Schema {
	kind := func(values ...any) *jsonschema.Schema { return &jsonschema.Schema{Type: "string", Enum: values} }
	var withLevel []any
	for _, v := range job.ExitLevelKinds().Values() {
		if v != string(job.ExitFree) {
			withLevel = append(withLevel, v)
		}
	}
	nothing := func() *jsonschema.Schema { return &jsonschema.Schema{Not: &jsonschema.Schema{}} }
	return &jsonschema.Schema{OneOf: []*jsonschema.Schema{
		{Type: "object", Required: []string{"kind"}, Properties: map[string]*jsonschema.Schema{"kind": kind(string(job.ExitFree))}, AdditionalProperties: nothing()},
		{Type: "object", Required: []string{"kind", "invertMM"}, Properties: map[string]*jsonschema.Schema{"kind": kind(withLevel...), "invertMM": {Type: "number"}}, AdditionalProperties: nothing()},
	}}
}

func schema() (*jsonschema.Schema, error) {
	two := 2
	types := map[reflect.Type]*jsonschema.Schema{
		reflect.TypeFor[plan.Point](): {Type: "array", Items: &jsonschema.Schema{Type: "number"}, MinItems: &two, MaxItems: &two},
	}
	put := func(t reflect.Type, s *jsonschema.Schema) { types[t] = s }
	put(words(job.UnitSystems()))
	put(words(job.EdgeKinds()))
	put(words(job.WallKinds()))
	put(words(job.LeafSwings()))
	put(words(job.FloorKinds()))
	put(words(job.SupportKinds()))
	put(words(job.HeightModes()))
	put(words(job.FallKinds()))
	put(words(job.ExitKinds()))
	put(words(job.FittingKinds()))
	put(words(job.Bonds()))
	put(words(job.Surfaces()))
	put(words(job.Sheens()))
	put(words(job.MetalKinds()))
	put(words(job.CoverKinds()))
	put(words(job.LightKinds()))
	put(words(job.ThingKinds()))
	put(words(job.InputStandings()))
	put(words(job.ReadOns()))
	put(oneOf(part.Joints()))
	put(oneOf(part.LayerUses()))
	put(oneOf(source.Marks()))
	put(oneOf(source.Sheets()))
	types[reflect.TypeFor[job.ExitLevel]()] = exitLevel()
	s, err := jsonschema.For[job.Job](&jsonschema.ForOptions{TypeSchemas: types})
	if err != nil {
		return nil, fmt.Errorf("making the job's schema: %w", err)
	}
	if err := withRanges(s); err != nil {
		return nil, err
	}
	s.Title = "Underfall job"
	s.Description = "One shower floor as stated. Lengths in millimetres, levels above the datum, which lies on the structural floor or on what levels were read on, angles in degrees, falls as rise over run, flows in litres per second."
	return s, nil
}

// schemaText is the JSON Schema of the job format, made from its types, so that
// other programs can check a file without Underfall.
func schemaText() ([]byte, error) {
	s, err := schema()
	if err != nil {
		return nil, err
	}
	data, err := json.MarshalIndent(s, "", "  ")
	if err != nil {
		return nil, fmt.Errorf("writing the job's schema: %w", err)
	}
	return append(data, '\n'), nil
}

// fitsSchema tells whether JSON fits the schema. Parse checks more.
func fitsSchema(data []byte) error {
	s, err := schema()
	if err != nil {
		return err
	}
	resolved, err := s.Resolve(nil)
	if err != nil {
		return fmt.Errorf("resolving the job's schema: %w", err)
	}
	var v any
	if err := json.Unmarshal(data, &v); err != nil {
		return fmt.Errorf("reading JSON: %w", err)
	}
	return resolved.Validate(v)
}
