package runs

import (
	"context"
	"errors"
	"time"

	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/ways"
)

// Lower is what looking for runs that need a lower base came to.
type Lower struct {
	// Said is that in words; nothing where the search took too long to say that there is none.
	Said message.Message
	// Ways are those that need less, the one that needs least first.
	Ways []Way
}

// lowerWithin is how long runs that need a lower base are looked for: a job that stands has been searched long before.
const lowerWithin = 6 * time.Second

// LowerThan looks for runs that need a lower base than a result's. A cancelled context ends it with the context's error.
func LowerThan(ctx context.Context, r geometry.Result) (Lower, error) {
	within, done := context.WithTimeout(ctx, lowerWithin)
	defer done()
	s, err := ways.LookAsItStands(within, r.Stated, r.Pack)
	if err = errors.Join(err, ctx.Err()); err != nil {
		return Lower{}, err
	}
	bare := r.Raises.Bare.TopMM - r.Heights.FloorHighMM
	var out Lower
	lower := s.Lower(bare)
	for i := range lower {
		out.Ways = append(out.Ways, Way{ways.Listing{Run: &lower[i]}.Does(), lower[i].Change})
	}
	switch {
	case len(lower) > 0:
		least := lower[0].BareMM
		rise := r.Heights.RiseTo(r.Heights.FloorHighMM + least) // as the heights tell it
		rise.Signed = least < 0
		out.Said = message.Of("levels.lower", message.Arg{Name: "bare", Value: rise}, message.MM("less", bare-least),
			message.In("way", out.Ways[0].Does))
	case within.Err() == nil:
		out.Said = message.Of("levels.none-lower", message.N("n", s.Tried))
	}
	return out, nil
}
