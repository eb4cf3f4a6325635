package slip

// lean sets what roads and cold make each tank use against the log's usual.
func (l *log) lean() {
	l.tanks = l.spans()
	l.measureScatter()
}
