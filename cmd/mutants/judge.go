package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"time"
)

// fate is what became of a mutant.
type fate string

const (
	killed    fate = "killed"
	survived  fate = "survived"
	uncovered fate = "uncovered" // survived, as no test comes by
	timedOut  fate = "timed out" // counts as survived; also when the memory did not do
	unbuilt   fate = "unbuilt"   // with its tests it does not compile, so it does not count
)

// verdict is a mutant with its fate.
type verdict struct {
	mutant
	fate
	tests time.Duration // that the package's tests take without a mutant
}

// judge runs tests on mutants.
type judge struct {
	limit time.Duration // that the tests get to notice a mutant

	mu        sync.Mutex
	baselines map[*subject]*baseline
}

// baseline is how a package's tests go without a mutant.
type baseline struct {
	once   sync.Once
	blocks []block
	took   time.Duration
	err    error
}

// judgeSample tests so many mutants of a draw. The first failure to test ends it.
func (j *judge) judgeSample(ctx context.Context, d *draw, number, workers int) ([]verdict, error) {
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	var mu sync.Mutex
	var verdicts []verdict
	begun := 0
	// begin takes a mutant out of the draw while more are wanted.
	begin := func() (mutant, bool) {
		mu.Lock()
		defer mu.Unlock()
		if begun == number || ctx.Err() != nil {
			return mutant{}, false
		}
		m, ok := d.next()
		if ok {
			begun++
		}
		return m, ok
	}
	end := func(v verdict) {
		mu.Lock()
		defer mu.Unlock()
		if v.fate == unbuilt {
			begun--
			return
		}
		verdicts = append(verdicts, v)
		fmt.Fprintf(os.Stderr, "%d of %d\t%s\t%s:%d:%d\t%s\n", len(verdicts), number, v.fate, v.file.name, v.line, v.column, v.change())
	}
	var wg sync.WaitGroup
	for range workers {
		wg.Go(func() {
			for {
				m, ok := begin()
				if !ok {
					return
				}
				v, err := j.judge(ctx, m)
				if err != nil {
					cancel(err)
					return
				}
				end(v)
			}
		})
	}
	wg.Wait()
	if err := context.Cause(ctx); err != nil {
		return nil, err
	}
	return verdicts, nil
}

// judge finds the fate of one mutant.
func (j *judge) judge(ctx context.Context, m mutant) (verdict, error) {
	if !m.of.tested {
		return verdict{mutant: m, fate: uncovered}, nil
	}
	b := j.baseline(ctx, m.of)
	if b.err != nil {
		return verdict{}, b.err
	}
	v := verdict{mutant: m, fate: uncovered, tests: b.took}
	if !covered(b.blocks, m) {
		return v, nil
	}
	folder, err := os.MkdirTemp("", "underfall-mutant-")
	if err != nil {
		return v, fmt.Errorf("making a folder for a mutant: %w", err)
	}
	defer os.RemoveAll(folder)
	file := filepath.Join(folder, filepath.Base(m.file.path))
	overlay, err := json.Marshal(map[string]map[string]string{"Replace": {m.file.path: file}})
	if err != nil {
		return v, fmt.Errorf("writing the overlay: %w", err)
	}
	overlayFile := filepath.Join(folder, "overlay.json")
	if err := errors.Join(os.WriteFile(file, m.mutated(), 0o644), os.WriteFile(overlayFile, overlay, 0o644)); err != nil {
		return v, fmt.Errorf("writing a mutant: %w", err)
	}
	out, err := j.goTest(ctx, m.of, "-overlay", overlayFile, "-failfast", "-timeout", j.limit.String())
	v.fate = fateOf(out, err)
	if v.fate == "" {
		return v, fmt.Errorf("testing %s: %w\n%s", m, err, out)
	}
	return v, nil
}

// goTest runs the tests of one package and gives what they print.
func (j *judge) goTest(ctx context.Context, s *subject, arguments ...string) (string, error) {
	cmd := exec.CommandContext(ctx, "go", append(append([]string{"test", "-vet=off", "-count=1"}, arguments...), s.path)...)
	cmd.Dir = filepath.Dir(s.files[0].path)
	// Random tests begin with the same seed each time, so that a mutant meets the
	// same fate again, in other samples as well. They neither look for a smaller case, which would take longer than
	// the limit, nor keep the case in the sources, where it would be tried on every
	// mutant after.
	cmd.Env = append(os.Environ(), "RAPID_SEED=1", "RAPID_SHRINKTIME=0s", "RAPID_NOFAILFILE=true")
	out, err := cmd.CombinedOutput()
	return string(out), err
}

// fateOf reads a fate from what go test printed; it is empty when the tests
// did not come to run.
func fateOf(out string, err error) fate {
	switch {
	case err == nil:
		return survived
	case strings.Contains(out, "[build failed]"):
		return unbuilt
	case strings.Contains(out, "panic: test timed out after"), strings.Contains(out, "out of memory"),
		strings.Contains(out, "cannot allocate memory"):
		return timedOut
	case strings.Contains(out, "\nFAIL\t"):
		return killed
	}
	return ""
}

// baseline runs the tests of a package as it is, once, to see where they come by.
func (j *judge) baseline(ctx context.Context, s *subject) *baseline {
	j.mu.Lock()
	b := j.baselines[s]
	if b == nil {
		b = &baseline{}
		j.baselines[s] = b
	}
	j.mu.Unlock()
	b.once.Do(func() { b.err = b.measure(ctx, j, s) })
	return b
}

func (b *baseline) measure(ctx context.Context, j *judge, s *subject) error {
	folder, err := os.MkdirTemp("", "underfall-mutant-")
	if err != nil {
		return fmt.Errorf("making a folder for coverage: %w", err)
	}
	defer os.RemoveAll(folder)
	profile := filepath.Join(folder, "coverage")
	out, err := j.goTest(ctx, s, "-coverprofile", profile)
	if err != nil {
		return fmt.Errorf("the tests of %s fail without a mutant: %w\n%s", s.path, err, out)
	}
	text, err := os.ReadFile(profile)
	if err != nil {
		return fmt.Errorf("reading the coverage of %s: %w", s.path, err)
	}
	if b.blocks, err = parseProfile(text); err != nil {
		return fmt.Errorf("reading the coverage of %s: %w", s.path, err)
	}
	if fields := strings.Fields(out); len(fields) > 2 {
		// "ok", the package, the time of the tests without that of the compiler.
		b.took, err = time.ParseDuration(fields[2])
	}
	return err
}

// block is a piece of a file that is run as a whole or not at all.
type block struct {
	file     string // its package's path and its name
	from, to place
	run      bool
}

// place is a line and a column.
type place struct{ line, column int }

func (p place) before(q place) bool {
	return p.line < q.line || p.line == q.line && p.column < q.column
}

// parseProfile reads what go test -coverprofile writes.
func parseProfile(text []byte) ([]block, error) {
	var blocks []block
	for line := range bytes.Lines(text) {
		if bytes.HasPrefix(line, []byte("mode:")) {
			continue
		}
		var b block
		var statements, times int
		file, rest, _ := strings.Cut(string(line), ":")
		if _, err := fmt.Sscanf(rest, "%d.%d,%d.%d %d %d", &b.from.line, &b.from.column, &b.to.line, &b.to.column, &statements, &times); err != nil {
			return nil, fmt.Errorf("%q: %w", line, err)
		}
		b.file, b.run = file, times > 0
		blocks = append(blocks, b)
	}
	return blocks, nil
}

// covered tells whether a test comes by a mutant. What is in no block, as
// constants are, counts as covered: it may be used anywhere.
func covered(blocks []block, m mutant) bool {
	at, file := place{m.line, m.column}, m.of.path+"/"+filepath.Base(m.file.path)
	var least *block
	for i, b := range blocks {
		// A function within a statement has blocks within the statement's.
		if b.file == file && !at.before(b.from) && at.before(b.to) && (least == nil || least.from.before(b.from)) {
			least = &blocks[i]
		}
	}
	return least == nil || least.run
}
