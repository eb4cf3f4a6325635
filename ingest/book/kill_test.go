package book

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"
)

// Set in a writer's environment: the logbook that it adds rows to, and the word that its rows begin with.
const (
	writerBook = "BRIMLOG_TEST_WRITER_BOOK"
	writerWord = "BRIMLOG_TEST_WRITER_WORD"
	killsAsked = "BRIMLOG_KILLS" // how many kills instead of a few
)

func TestMain(m *testing.M) {
	if dir := os.Getenv(writerBook); dir != "" {
		writeForever(dir, os.Getenv(writerWord))
	}
	os.Exit(m.Run())
}

// writeForever adds rows and says so of each only once it is added.
func writeForever(dir, word string) {
	for i := 0; ; i++ {
		id := fmt.Sprintf("%s-%d", word, i)
		if _, err := Append(dir, FillsFile, Cells{"date": "2024-02-11", "odometer": "48213", "volume": "52.31", "note": id + ", and more"}); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		fmt.Println(id)
	}
}

// Two programs add rows at once and are killed, again and again, at any moment. Every row that was acknowledged is there, none is
// there twice, none is torn, a reader in between never sees half a row, and the next addition leaves nothing behind.
func TestKilledWriters(t *testing.T) {
	kills := 60
	if n, err := strconv.Atoi(os.Getenv(killsAsked)); err == nil {
		kills = n
	}
	if testing.Short() {
		kills = 10
	}
	dir := logbook(t, map[string]string{FillsFile: "\ufeffdate,odometer_mi,volume_l,note,own\r\n"})
	var mu sync.Mutex
	acknowledged, runs := map[string]bool{}, map[string]int{}
	var writers sync.WaitGroup
	for w := range 2 {
		writers.Go(func() {
			for k := range kills / 2 {
				word := fmt.Sprintf("w%d-%d", w, k)
				ids, err := writeAndDie(dir, word)
				if err != nil {
					t.Error(err)
					return
				}
				mu.Lock()
				runs[word] = len(ids)
				for _, id := range ids {
					acknowledged[id] = true
				}
				mu.Unlock()
			}
		})
	}
	done := make(chan struct{})
	go func() { writers.Wait(); close(done) }()
	reads := 0
	for running := true; running; reads++ {
		select {
		case <-done:
			running = false
		case <-time.After(5 * time.Millisecond):
		}
		if b, err := Read(dir); err != nil || len(b.Problems) > 0 {
			t.Fatalf("a reader in between: %v, %v", err, b)
		}
	}
	seen := countRows(t, dir)
	for id := range acknowledged {
		if seen[id] != 1 {
			t.Errorf("the acknowledged row %s is there %d times", id, seen[id])
		}
	}
	for id, n := range seen {
		if n != 1 {
			t.Errorf("row %s is there %d times", id, n)
		}
		word, i, _ := cutLast(id)
		if i > runs[word] { // one may have been on its way when the writer died
			t.Errorf("row %s is there, but %s acknowledged only %d", id, word, runs[word])
		}
	}
	if len(acknowledged) < kills/4 {
		t.Errorf("only %d rows in %d runs: nothing was tried", len(acknowledged), kills)
	}
	if _, err := Append(dir, FillsFile, Cells{"date": "2024-02-12", "odometer": "48214", "volume": "1"}); err != nil {
		t.Fatal(err)
	}
	if left, _ := filepath.Glob(filepath.Join(dir, tempStart+"*")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
	t.Logf("%d kills, %d rows acknowledged, %d there, %d reads in between", kills, len(acknowledged), len(seen), reads)
}

// writeAndDie lets a writer go for a moment, kills it, and gives the rows that it acknowledged.
func writeAndDie(dir, word string) (ids []string, err error) {
	writer := exec.Command(os.Args[0])
	writer.Env = append(os.Environ(), writerBook+"="+dir, writerWord+"="+word)
	writer.Stderr = os.Stderr
	out, err := writer.StdoutPipe()
	if err != nil {
		return nil, err
	}
	if err := writer.Start(); err != nil {
		return nil, err
	}
	lines := bufio.NewScanner(out)
	more := lines.Scan() // it is under way
	time.AfterFunc(time.Duration(rand.IntN(25000))*time.Microsecond, func() { _ = writer.Process.Kill() })
	for ; more; more = lines.Scan() {
		ids = append(ids, lines.Text())
	}
	if err := writer.Wait(); err == nil || !strings.Contains(err.Error(), "killed") && !strings.Contains(err.Error(), "exit status") {
		return nil, fmt.Errorf("the writer ended by itself: %w", err)
	}
	if writer.ProcessState.ExitCode() > 0 && writer.ProcessState.Exited() {
		return nil, fmt.Errorf("the writer %s gave up: %v", word, writer.ProcessState)
	}
	return ids, nil
}

// countRows counts the rows by the id in their note, and fails on a row that is not whole.
func countRows(t *testing.T, dir string) map[string]int {
	t.Helper()
	b, err := Read(dir)
	if err != nil || len(b.Problems) > 0 {
		t.Fatalf("%v, %v", err, b)
	}
	seen := map[string]int{}
	for _, f := range b.Fills {
		id, whole := strings.CutSuffix(f.Note, ", and more")
		if !whole || f.Litres != 52.31 {
			t.Fatalf("torn: %+v", f)
		}
		seen[id]++
	}
	return seen
}

func cutLast(id string) (word string, n int, err error) {
	i := strings.LastIndexByte(id, '-')
	n, err = strconv.Atoi(id[i+1:])
	return id[:i], n, err
}
