package ahead

import (
	"fmt"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strings"
)

// A Fault is what some work panicked with, and where: whoever it is handed on to has a stack of its own.
type Fault struct {
	Of    any
	Place string // file and line, empty where that is not known
	Stack []byte
}

// FaultOf is what recover gave. It is to be called where that was.
func FaultOf(recovered any) Fault {
	if f, handed := recovered.(Fault); handed {
		return f
	}
	return Fault{recovered, panicked(), debug.Stack()}
}

func (f Fault) Error() string { return fmt.Sprintf("%v\n\n%s", f.Of, f.Stack) }

// String is the fault in one line.
func (f Fault) String() string { return strings.TrimSuffix(fmt.Sprintf("%v, %s", f.Of, f.Place), ", ") }

// panicked is the line that panicked: the first below the panic that is not the runtime's own.
func panicked() string {
	pc := make([]uintptr, 64)
	frames := runtime.CallersFrames(pc[:runtime.Callers(1, pc)])
	for below := false; ; {
		f, more := frames.Next()
		if below && !strings.HasPrefix(f.Function, "runtime.") {
			return fmt.Sprintf("%s:%d", filepath.Base(f.File), f.Line)
		}
		if below = below || f.Function == "runtime.gopanic"; !more {
			return ""
		}
	}
}
