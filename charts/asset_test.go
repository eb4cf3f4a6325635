package charts

import (
	"bufio"
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// What was made elsewhere is as it was published.
func TestChecksums(t *testing.T) {
	for _, dir := range []string{"echarts", "../testdata/axe"} {
		sums, err := os.Open(filepath.Join(dir, "SHA256SUMS"))
		if err != nil {
			t.Fatal(err)
		}
		defer sums.Close()
		n := 0
		for lines := bufio.NewScanner(sums); lines.Scan(); n++ {
			want, file, _ := strings.Cut(lines.Text(), "  ")
			data, err := os.ReadFile(filepath.Join(dir, file))
			if err != nil {
				t.Error(err)
				continue
			}
			if got := fmt.Sprintf("%x", sha256.Sum256(data)); got != want {
				t.Errorf("%s/%s has the checksum %s, want %s", dir, file, got, want)
			}
		}
		if n < 3 {
			t.Errorf("%s: only %d checksums", dir, n)
		}
	}
}

func TestLicencesTravelWithTheLibrary(t *testing.T) {
	for _, want := range []string{"Apache ECharts", "Licensed to the Apache Software Foundation", "Mike Bostock", "Baidu"} {
		if !strings.Contains(library(), want) {
			t.Errorf("the library in the page lacks %q", want)
		}
	}
	if strings.Contains(library(), "</script") || strings.Contains(script(), "</script") || strings.Contains(style(), "</style") {
		t.Error("what the page carries would end its own element")
	}
}
