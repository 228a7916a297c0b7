package viewer

import (
	"slices"
	"testing"

	"underfall/geometry/message"
	"underfall/viewer/trace"
)

// Whatever is done another way than a card would do it is told, with what draws; what makes no difference is not.
func TestWhatDrawsIsTold(t *testing.T) {
	const card, processor = "a card", "llvmpipe (LLVM 15.0.6, 256 bits)"
	all := trace.Abilities{Blends: true, Filters: true, Computes: true}
	without := func(change func(*trace.Abilities)) trace.Abilities {
		a := all
		change(&a)
		return a
	}
	for _, c := range []struct {
		device string
		able   trace.Abilities
		resets int
		want   []message.ID
	}{
		{card, all, 0, nil},
		{card, without(func(a *trace.Abilities) { a.Blends = false }), 0, nil}, // shaders that compute add up by themselves
		{card, without(func(a *trace.Abilities) { a.Computes = false }), 0, []message.ID{"drawn-by.no-computing"}},
		{card, trace.Abilities{}, 0, []message.ID{"drawn-by.no-computing", "drawn-by.no-blending", "drawn-by.no-filtering"}},
		{card, all, 2, []message.ID{"drawn-by.resets"}},
		{processor, all, 0, []message.ID{"drawn-by.no-card"}},
		{processor, without(func(a *trace.Abilities) { a.Computes = false }), 0, []message.ID{"drawn-by.no-card"}},
		{processor, without(func(a *trace.Abilities) { a.Blends = false }), 1,
			[]message.ID{"drawn-by.no-card", "drawn-by.no-blending", "drawn-by.resets"}},
	} {
		var got []message.ID
		for _, m := range drawnBy(c.device, c.able, c.resets) {
			got = append(got, m.ID)
		}
		if want := append([]message.ID{"drawn-by.device"}, c.want...); !slices.Equal(got, want) {
			t.Errorf("%s, %+v, %d resets: %v, want %v", c.device, c.able, c.resets, got, want)
		}
	}
}
