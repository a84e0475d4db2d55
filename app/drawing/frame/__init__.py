"""What every sheet carries: title block, legend of the marks in use, standing caution."""
