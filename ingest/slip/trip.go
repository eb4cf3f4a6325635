package slip

func (l *log) drives() {}
func (l *log) jobs()   {}
