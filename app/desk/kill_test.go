//go:build unix

package desk_test

import (
	"bufio"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"underfall/app/desk"
	"underfall/app/guard"
	"underfall/app/store"
	"underfall/assets"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// worksIn, in the environment, makes the test binary a program that works on a
// job in that folder until it is killed.
const worksIn = "UNDERFALL_TEST_WORKS_IN"

func TestMain(m *testing.M) {
	if folder := os.Getenv(worksIn); folder != "" {
		if err := workUntilKilled(folder); err != nil {
			fmt.Println("failed", err)
			os.Exit(1)
		}
		return
	}
	os.Exit(m.Run())
}

func keptIn(folder string) string { return filepath.Join(folder, "config", "kept") }
func fileIn(folder string) string { return filepath.Join(folder, "jobs", "job.json") }

// workUntilKilled brings back what was left behind, then edits, keeps and now
// and then saves, and says on standard output what it has done once it is done.
// The job's name counts the edits.
func workUntilKilled(folder string) error {
	packs, err := assets.Rules()
	if err != nil {
		return err
	}
	d, err := desk.New(job.New(), packs, func(f func()) { f() }, guard.New(func(f guard.Fault) { fmt.Println("failed", f.Reason) }, nil))
	if err != nil {
		return err
	}
	d.KeepIn(keptIn(folder), time.Now)
	found, _, err := d.LeftBehind()
	if err != nil {
		return err
	}
	switch {
	case len(found) > 0:
		err = d.BringBack(found[0])
	default:
		if _, missing := os.Stat(fileIn(folder)); missing == nil {
			err = d.Open(fileIn(folder))
		}
	}
	if err != nil {
		return err
	}
	for n := state(d.Job().Name) + 1; ; n++ {
		d.Do(edit.Of(message.Of("edit.test-state"), func(j *job.Job) { j.Name = stateName(n) }))
		did, err := "kept", error(nil)
		if n%3 == 0 {
			// What was kept is then older than what is saved.
			did, err = "saved", d.Save(fileIn(folder))
		} else {
			err = d.Keep()
		}
		if err != nil {
			return err
		}
		fmt.Println(did, n)
	}
}

func stateName(n int) string { return "State " + strconv.Itoa(n) }

// state is the number in a job's name, 0 for a new one.
func state(name string) int {
	n, _ := strconv.Atoi(strings.TrimPrefix(name, "State "))
	return n
}

// working starts the program on a folder; line reads what it says it has done.
func working(t *testing.T, folder string) (program *exec.Cmd, line func() (did string, n int)) {
	t.Helper()
	program = exec.Command(os.Args[0])
	program.Env = append(os.Environ(), worksIn+"="+folder)
	program.Stderr = os.Stderr
	out, err := program.StdoutPipe()
	must(t, err)
	must(t, program.Start())
	t.Cleanup(func() { _ = program.Process.Kill(); _, _ = io.Copy(io.Discard, out) })
	lines := bufio.NewReader(out)
	return program, func() (did string, n int) {
		text, err := lines.ReadString('\n')
		if err != nil {
			return "", 0
		}
		if _, err := fmt.Sscan(text, &did, &n); err != nil {
			t.Fatalf("the program says %q", text)
		}
		return did, n
	}
}

// Killed at any moment, nothing acknowledged is lost: the file is whole and one
// of the states written, the work offered is the newest kept and newer than the
// file, and nothing is left lying about. UNDERFALL_KILLS sets how often.
func TestKilledAtAnyMoment(t *testing.T) {
	kills := 60
	if s := os.Getenv("UNDERFALL_KILLS"); s != "" {
		var err error
		kills, err = strconv.Atoi(s)
		must(t, err)
	}
	folder := t.TempDir()
	must(t, os.Mkdir(filepath.Dir(fileIn(folder)), 0o755))
	kept, saved, offered, halfSaved := 0, 0, 0, 0
	for i := range kills {
		program, line := working(t, folder)
		// At least one thing is done, so that every round gets on.
		for range 1 + rand.IntN(6) {
			if did, _ := line(); did == "" {
				t.Fatal("the program ended by itself")
			}
		}
		time.Sleep(time.Duration(rand.IntN(3000)) * time.Microsecond)
		must(t, program.Process.Kill())
		for did, n := line(); did != ""; did, n = line() {
			note(t, did, n, &kept, &saved)
		}
		_ = program.Wait() // it was killed
		if strings.Contains(list(t, filepath.Dir(fileIn(folder))), ".tmp") {
			halfSaved++
		}
		inFile := checkFile(t, folder, saved)
		offered += checkOffered(t, folder, inFile, max(kept, saved))
		if t.Failed() {
			t.Fatalf("after kill %d: kept %d, saved %d, in the file %d", i+1, kept, saved, inFile)
		}
	}
	if offered == 0 || offered == kills {
		t.Errorf("of %d kills, %d left unsaved work: the moments are not spread", kills, offered)
	}
	t.Logf("%d kills: %d left unsaved work, %d a half-written file beside", kills, offered, halfSaved)
}

// note takes down what the program has done.
func note(t *testing.T, did string, n int, kept, saved *int) {
	t.Helper()
	switch did {
	case "kept":
		*kept = n
	case "saved":
		*saved = n
	default:
		t.Fatalf("the program says %s %d", did, n)
	}
}

// checkFile gives the state in the file, which is whole and no older than the
// last one saved.
func checkFile(t *testing.T, folder string, saved int) int {
	t.Helper()
	data, err := os.ReadFile(fileIn(folder))
	if os.IsNotExist(err) && saved == 0 {
		return 0
	}
	must(t, err)
	j, err := job.Parse(data)
	if err != nil {
		t.Fatalf("the file is not whole: %v", err)
	}
	if n := state(j.Name); n < saved || n%3 != 0 {
		t.Errorf("the file holds state %d, saved was %d", n, saved)
	}
	return state(j.Name)
}

// checkOffered looks at what the next start finds: the newest work, unless it is
// in the file; nothing of temporary files. It leaves the work for the program.
func checkOffered(t *testing.T, folder string, inFile, newest int) int {
	t.Helper()
	d, _ := open(t)
	keepIn(d, keptIn(folder))
	found := leftBehind(t, d)
	if len(found) > 1 {
		t.Errorf("%d are offered", len(found))
	}
	if len(found) == 0 && inFile < newest {
		t.Errorf("nothing is offered, state %d is lost", newest)
	}
	for _, f := range found {
		if n := state(f.Name); n < newest || n <= inFile {
			t.Errorf("state %d is offered, %d was kept, %d is in the file", n, newest, inFile)
		}
		must(t, f.Later())
	}
	// A dead window has the file no longer.
	c, err := store.ClaimFile(fileIn(folder))
	must(t, err)
	must(t, c.Release())
	if n := list(t, filepath.Dir(fileIn(folder))); n != "" && n != "job.json" {
		t.Errorf("beside the file lies %s", n)
	}
	for _, n := range strings.Fields(list(t, keptIn(folder))) {
		if id, _ := strings.CutSuffix(strings.TrimSuffix(n, ".lock"), ".json"); len(found) == 0 || strings.Contains(id, ".") {
			t.Errorf("in the folder of kept work lies %s", n)
		}
	}
	return len(found)
}

// Two windows in two processes share a folder: what the other keeps is neither
// offered nor touched while it lives, and offered once it is dead.
func TestTwoProcesses(t *testing.T) {
	folder := t.TempDir()
	must(t, os.Mkdir(filepath.Dir(fileIn(folder)), 0o755))
	program, line := working(t, folder)
	d, next := open(t)
	keepIn(d, keptIn(folder))
	d.Do(setDepth(1000))
	next()
	kept := 0
	for range 20 {
		did, n := line()
		if did == "kept" {
			kept = n
		}
		must(t, d.Keep())
		if found := leftBehind(t, d); len(found) > 0 {
			t.Fatalf("living work is offered: %s", found[0].Name)
		}
	}
	must(t, program.Process.Kill())
	saved := 0
	for did, n := line(); did != ""; did, n = line() {
		note(t, did, n, &kept, &saved)
	}
	_ = program.Wait()
	found := leftBehind(t, d)
	if inFile := checkFile(t, folder, saved); len(found) == 0 && inFile < kept {
		t.Errorf("the dead window's state %d is not offered", kept)
	}
	for _, f := range found {
		if state(f.Name) < kept {
			t.Errorf("state %d is offered, %d was kept", state(f.Name), kept)
		}
		must(t, f.Remove())
	}
	if n := strings.Count(list(t, keptIn(folder)), ".json"); n != 1 {
		t.Errorf("of the living window alone, %d are kept: %s", n, list(t, keptIn(folder)))
	}
	must(t, d.Release())
	if n := list(t, keptIn(folder)); n != "" {
		t.Errorf("left %s", n)
	}
}
