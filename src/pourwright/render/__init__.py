"""Records on their way to an eye: the printed sheet, QR codes and charts."""
