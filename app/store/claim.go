package store

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/gofrs/flock"
	"underfall/geometry/message"
)

// ErrElsewhere is the cause of all errors about a file that another window has claimed.
var ErrElsewhere error = message.Fail("store.elsewhere")

// Claim is a window's claim to a job's file: as long as it stands no other window writes that file. It
// ends with the program however that ends, as it is a lock of the operating system on a hidden file
// beside the job.
type Claim struct {
	file string // the job's, with no links left to follow
	lock *flock.Flock
}

const (
	claimPrefix = ".underfall-open-"
	// wantedEnding is of a file by which another window asks for the claim.
	wantedEnding = ".wanted"
	// claimMode lets others who may write in the folder claim the file after us.
	claimMode = 0o666
	// longestComputer bounds what is believed of a computer's name.
	longestComputer = 64
)

// claimNames are the files of a claim to a job's file.
func claimNames(file string) (lock, wanted string) {
	sum := sha256.Sum256([]byte(filepath.Base(file)))
	// The name itself may be as long as names get.
	name := filepath.Join(filepath.Dir(file), claimPrefix+hex.EncodeToString(sum[:8]))
	return name + lockEnding, name + wantedEnding
}

// ClaimFile claims a job's file, which need not exist yet. The error is ErrElsewhere when another
// living window has it; any other means that on this disk it cannot be told whether one has.
func ClaimFile(path string) (*Claim, error) {
	file, err := follow(path)
	if err != nil {
		return nil, inWords(err, "store.no-folder")
	}
	name, wanted := claimNames(file)
	const tries = 10
	for range tries {
		l := flock.New(name, flock.SetPermissions(claimMode))
		got, err := l.TryLock()
		switch {
		case err != nil:
			return nil, inWords(err, "store.no-folder")
		case !got:
			return nil, elsewhere(name)
		case stillThere(l):
			// What a window asked for that is no more.
			_ = os.Remove(wanted)
			if computer, err := os.Hostname(); err == nil {
				// It only helps whoever comes next to find us.
				_ = os.WriteFile(name, []byte(computer), claimMode)
			}
			return &Claim{file, l}, nil
		}
		// Removed by a window that has just let go.
		_ = l.Close()
	}
	return nil, message.Fail("store.no-claim")
}

// elsewhere says that another window has a claim, and on which computer when that is another.
func elsewhere(lock string) error {
	what := message.Of("store.elsewhere")
	ours, ourErr := os.Hostname()
	data, _, err := Read(lock, longestComputer)
	if theirs := strings.TrimSpace(Plain(string(data))); err == nil && ourErr == nil && theirs != "" && theirs != ours {
		what = message.Of("store.elsewhere-on", message.Name("computer", theirs))
	}
	return &message.Error{What: what, Cause: ErrElsewhere}
}

// TakeOver asks the window that has a file to let go, and claims it. A window that does not answer
// before the context ends keeps it, and the error is ErrElsewhere.
func TakeOver(ctx context.Context, path string) (*Claim, error) {
	c, err := ClaimFile(path)
	if !errors.Is(err, ErrElsewhere) {
		return c, err
	}
	file, err := follow(path)
	if err != nil {
		return nil, inWords(err, "store.no-folder")
	}
	_, wanted := claimNames(file)
	if err := os.WriteFile(wanted, nil, claimMode); err != nil {
		return nil, inWords(err, "store.no-folder")
	}
	defer os.Remove(wanted) // mostly gone with the claim
	const every = 50 * time.Millisecond
	tick := time.NewTicker(every)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return nil, &message.Error{What: message.Of("store.not-let-go"), Cause: ErrElsewhere}
		case <-tick.C:
			if c, err := ClaimFile(path); !errors.Is(err, ErrElsewhere) {
				return c, err
			}
		}
	}
}

// Of tells whether the claim is to the file that a path leads to, and still stands: somebody may have
// removed its lock.
func (c *Claim) Of(path string) bool {
	if c == nil {
		return false
	}
	file, err := follow(path)
	return err == nil && file == c.file && c.lock.Locked() && stillThere(c.lock)
}

// Wanted tells whether another window asks for the claim.
func (c *Claim) Wanted() bool {
	_, wanted := claimNames(c.file)
	return isThere(wanted)
}

// Release gives the claim up; one that is nil was never had.
func (c *Claim) Release() error {
	if c == nil {
		return nil
	}
	if err := dropLock(c.lock); err != nil {
		return message.Wrap(inWords(err, ""), "store.releasing", message.Name("file", Plain(filepath.Base(c.file))))
	}
	return nil
}
